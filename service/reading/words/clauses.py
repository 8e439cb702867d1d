"""
Where one statement of a text ends and the next begins, and what frame stands around each: if, last year, a question.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

from service.reading.words.marks import Marks
from service.reading.words.minding import only_minds
from service.reading.words.normalising import Word


@dataclass(slots=True)
class Clause:
    """
    Words ``start`` to ``end`` that belong together.

    when: it only says when something else happens. if_: it is only supposed. past: it was so long ago. others: it is somebody
    else's machine. asked: it is asked whether it is so. unsure: the speaker does not know whether it is so.
    """

    start: int
    end: int
    when: bool = False
    if_: bool = False
    past: bool = False
    others: bool = False
    asked: bool = False
    unsure_from: int | None = None


_WHEN = frozenset((
    "when", "while", "whenever", "after", "before", "until", "cuando", "mientras", "despues", "antes", "hasta",
    "once", "as",
))  # fmt: skip
_IF = frozenset(["if", "unless", "si"])
_PERSONS = frozenset(["i", "you", "we", "u", "yo", "tu", "usted", "uno"])
_THINGS = frozenset(["it", "the", "water", "there", "its", "smoke", "el", "la", "se", "sale", "hay", "agua"])
_AUX_FIRST = frozenset((
    "is", "does", "did", "will", "could", "would", "can", "should", "might", "has", "do", "are", "es", "sera",
    "puede", "podria", "hace",
))  # fmt: skip
_PRONOUNS = frozenset(["it", "that", "this", "they", "these", "those", "eso", "esto"])


def cut_clauses(words: Sequence[Word], marks: Marks, named: frozenset[int]) -> list[Clause]:
    """The clauses of *words*; ``named`` holds the words at which an appliance's name begins."""
    if not words:
        return []
    signs = _Signs.of(marks, named)
    starts = [0, *(i for i in range(1, len(words)) if _begins(words, i, signs)), len(words)]
    clauses = [Clause(a, b) for a, b in pairwise(starts)]
    sentence_start = 0
    for number, clause in enumerate(clauses):
        if words[clause.start].brk == 2:
            sentence_start = clause.start
        _frame(clause, clauses[number - 1] if number else None, words, marks, sentence_start)
    return clauses


class _Signs(NamedTuple):
    """Where words stand that may begin a clause."""

    contrast: frozenset[int]
    always: frozenset[int]
    joiners: frozenset[int]
    subjects: frozenset[int]
    ahead: frozenset[int]
    """What begins a clause after a joiner: a subject, or "stopped"."""

    @classmethod
    def of(cls, marks: Marks, named: frozenset[int]) -> _Signs:
        subjects = marks.starts("subjects") | marks.starts("negators") | named
        always, joiners = marks.starts("always_joiners"), marks.starts("joiners")
        return cls(marks.starts("contrast"), always, joiners, subjects, subjects | marks.starts("stoppers"))


def _begins(words: Sequence[Word], i: int, signs: _Signs) -> bool:
    word = words[i]
    if word.brk == 2 or i in signs.contrast:
        return True
    if i in signs.always and words[i - 1].form not in _PREPOSED and not _dates(words, i):
        return True
    if word.brk == 1 and (
        (i + 1 < len(words) and words[i + 1].en == "be")
        or word.form == "been"
        or i in signs.subjects
        or i in signs.joiners
        or _finite(word)
    ):
        return True
    if i in signs.joiners:
        ahead = i + 1
        return ahead < len(words) and (ahead in signs.ahead or _finite(words[ahead]))
    return word.form in _THINGS and _main_after_if(words, i)


def _dates(words: Sequence[Word], i: int) -> bool:
    """“it tripped once last year”: no statement begins with this "once"."""
    return (
        words[i].form == "once"
        and i + 1 < len(words)
        and words[i + 1].form in ("last", "back", "before", "years", "and")
    )


_PREPOSED = frozenset(["not", "ever", "even", "just", "only", "right"])


def _finite(word: Word) -> bool:
    form = word.form
    return len(form) > 3 and word.en != form and (form.endswith(("s", "ed"))) and form not in _PLURAL_NOUNS


_PLURAL_NOUNS = frozenset(
    ["leaks", "smells", "noises", "lights", "buttons", "dishes", "clothes", "burners", "sparks", "controls", "knobs"]
)


def _main_after_if(words: Sequence[Word], i: int) -> bool:
    """“if i turn it on | it leaks”: a thing named after a condition about a person begins the main clause."""
    if words[i - 1].brk == 2:
        return False
    for back in range(i - 3, max(-1, i - 9), -1):
        if words[back].form in _IF and back + 1 < i and words[back + 1].form in _PERSONS:
            return words[i].form != "the" and words[i].form not in ("el", "la")
        if words[back].brk == 2:
            return False
    return False


def _up_to_a_place(opening: Sequence[Word]) -> bool:
    """“hasta arriba”, “hasta abajo”: how far it goes, not when."""
    return (
        opening[0].form == "hasta" and len(opening) > 1 and opening[1].form in ("arriba", "abajo", "adentro", "atras")
    )


def _frame(clause: Clause, previous: Clause | None, words: Sequence[Word], marks: Marks, sentence: int) -> None:
    inside = range(clause.start, clause.end)
    first = words[clause.start].form
    clause.when = first in _WHEN and not _up_to_a_place(words[clause.start : clause.start + 2])
    supposed = [start for start, _ in marks.at("conditional") if start in inside and not _insists(words, start)]
    if supposed:
        start = supposed[0]
        personal = start + 1 < clause.end and words[start + 1].form in _PERSONS
        clause.if_, clause.when = not personal or clause.if_, personal
    over = any(start < clause.end and clause.start < end for start, end in marks.at("past")) or any(
        start in inside and _has_a_successor(clause, end, words) for start, end in marks.at("old_ones")
    )
    clause.past = over and not any(start in inside for start, _ in marks.at("began"))
    clause.past = clause.past or _says_before(words, clause)
    clause.others = any(start in inside and not only_minds(words, end) for start, end in marks.at("others"))
    continues = previous is not None and words[clause.start].brk < 2
    if continues and previous is not None:
        clause.others = clause.others or (previous.others and first in ("and", "y", "when", "cuando"))
        clause.if_ = clause.if_ or (previous.if_ and first in ("and", "or", "y", "o"))
    for start, _ in marks.at("unsure"):
        if start in inside:
            clause.unsure_from = start
    if continues and previous is not None and previous.unsure_from is not None and first in ("if", "whether", "si"):
        clause.unsure_from, clause.if_ = clause.start, True
    clause.asked = _asks_whether(words, sentence, clause, marks)


def _insists(words: Sequence[Word], at: int) -> bool:
    """“lo que sí es que no calienta”, “si calienta pero tarda mucho”, “por si era eso”: what is so, and not supposed."""
    at += words[at].form == "por"
    if at >= len(words) or words[at].form != "si":
        return False
    if not at:
        turns = any(word.form in _TURNS for word in words[2:6])
        return (
            turns
            and len(words) > 3
            and words[1].form not in _SUPPOSED
            and words[1].form.endswith(("a", "e", "an", "en"))
        )
    if words[at - 1].form == "por":
        return at + 1 < len(words) and words[at + 1].form in ("era", "fuera", "acaso")
    return at > 1 and words[at - 1].form in ("que", "q") and words[at - 2].form == "lo"


_TURNS = frozenset(("pero", "nomas", "solo", "aunque"))
_SUPPOSED = frozenset((
    "le", "me", "te", "se", "la", "puede", "pueden", "puedes", "quiere", "quieren", "viene", "vienen", "ella", "usted",
    "fuera", "fuese", "hubiera", "tuviera", "de", "para", "cobran",
))  # fmt: skip
"""Behind an “if” of what may be asked for or done, and no “sí”."""


def _has_a_successor(clause: Clause, named: int, words: Sequence[Word]) -> bool:
    """
    “my old stove caught fire, this one just clicks”: whether the clause tells what was, and another machine is named beside
    the old one, that *named* ends. “my old stove is sparking” speaks of the one at hand.
    """
    told = {word.form for word in words[clause.start : clause.end]}
    if told & _IS or not any(form in _WAS or form.endswith(_ENDS_OF_WAS) for form in told):
        return False
    here = range(clause.start, named)
    return any(
        words[at].form in _THIS and words[at + 1].form in _ONE for at in range(len(words) - 1) if at not in here
    ) or any(word.form in _MINE for word in words)


_IS = frozenset((
    "is", "are", "has", "keeps", "im", "its", "it's", "i'm", "smells", "sparks", "smokes", "leaks", "shocks", "gives",
    "gets", "makes", "es", "esta", "echa", "huele", "sale", "da", "saca", "tiene", "dice",
))  # fmt: skip
_WAS = frozenset((
    "had", "was", "were", "did", "got", "caught", "gave", "burnt", "cut", "blew", "went", "fue", "era", "tuvo",
    "hubo", "echo", "dio", "made", "ran", "kept", "quit", "broke", "saco", "prendio", "quemo", "incendio", "agarro",
))  # fmt: skip
_ENDS_OF_WAS = ("ed", "aba", "aban", "ia", "ian")
_THIS = frozenset(["this", "new", "bought", "esta", "este", "nueva", "nuevo", "compre", "compramos"])
_ONE = frozenset((
    "one", "ones", "this", "new", "a", "es", "ya", "nueva", "nuevo", "no", "nomas", "solo", "dryer", "washer",
    "dishwasher", "fridge", "oven", "stove", "refrigerator", "machine", "microwave", "range", "cooktop", "freezer", "hood",
))  # fmt: skip
_MINE = frozenset(["replacement", "mine"])


def _says_before(words: Sequence[Word], clause: Clause) -> bool:
    """“antes tronaba mucho”, “before it was too cold”: so once, in what else would be but a moment."""
    if words[clause.start].form not in ("antes", "before") or clause.end - clause.start < 2:
        return False
    clause_words = words[clause.start + 1 : clause.start + 4]
    if words[clause.start].form == "antes":
        said = clause_words[0].form
        return said.endswith(("aba", "ia", "aban", "ian")) or said in ("si", "no", "era", "hacia")
    return any(word.form in ("was", "were") for word in clause_words[:2])


_TOLD_BEFORE = 3
"""So many words before a “could it be …?” tell what is asked about: “the fridge is warm, could it be the fan?”."""


def _asks_whether(words: Sequence[Word], sentence: int, clause: Clause, marks: Marks) -> bool:
    """
    Whether the sentence asks if something is so (“does it leak?”), rather than complaining in a question's clothes.
    """
    if any(sentence <= start < clause.end for start, _ in marks.at("complains")):
        return False
    wonders = [(start, end) for start, end in marks.at("wonders") if sentence <= start < clause.end]
    if any(not (_is_of_a_time(words, end) or start - clause.start >= _TOLD_BEFORE) for start, end in wonders):
        return True
    at = sentence
    if at + 1 >= len(words) or words[at].form not in _AUX_FIRST:
        return False
    return words[at + 1].form in _PRONOUNS and clause.start - at < 8


_TIMES = frozenset((
    "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday", "mon", "tue", "tues", "wed", "thu", "thur",
    "thurs", "fri", "sat", "sun", "today", "tonight", "tomorrow", "morning", "afternoon", "evening", "week", "weekend", "later",
    "lunes", "martes", "miercoles", "jueves", "viernes", "sabado", "domingo", "hoy", "manana", "tarde", "mediodia", "temprano",
    "semana", "finde", "noche",
))  # fmt: skip


def _is_of_a_time(words: Sequence[Word], end: int) -> bool:
    """“… wont spin, could it be saturday?”: what is asked is when, and the fault beside it is told."""
    return any(word.form in _TIMES for word in words[end : end + 4] if not word.brk or word is words[end])
