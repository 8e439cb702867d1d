"""Which words of a text ask something: a question answers nothing by the small words it is made of."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from service.reading.words.normalising import Word, Words, fold

_ASKING = frozenset((
    "what", "whats", "why", "whys", "how", "hows", "who", "whos", "which", "where", "wheres", "when", "whens",
    "que", "cual", "cuales", "cuando", "como", "quien", "quienes", "donde", "cuanto", "cuanta", "cuantos", "cuantas",
))  # fmt: skip
_SURELY = frozenset(
    ("why", "whys", "whats", "hows", "whos", "wheres", "whens", "cuanto", "cuanta", "cuantos", "cuantas")
)
"""Question words that begin no dependent clause ("when it spins", "cuando lava")."""

TURNED = frozenset(("do", "does", "did", "is", "are", "can", "could", "will", "would", "should"))
"""Auxiliaries that stand before their subject in a question."""

_INSIDE = TURNED | {"was", "were"}
_SUBJECTS = frozenset((
    "i", "you", "u", "ya", "yall", "we", "they", "it", "that", "this", "these", "those", "he", "she", "the", "my",
    "your", "our", "someone", "somebody", "anyone", "anybody", "any", "there",
))  # fmt: skip
_OBJECTS = frozenset(("it", "that", "this", "these", "those", "the", "my", "your", "our"))
"""After "do" and "did" these are as well what is done ("do it tomorrow", "did that"), but for a question mark."""

_TURNED_ES = frozenset((
    "puede", "pueden", "podria", "podrian", "tienen", "hacen", "trabajan", "arreglan", "cuesta", "cobran", "vienen", "van",
    "venden", "manejan", "instalan", "reparan", "atienden", "aceptan",
))  # fmt: skip
SAID_BY_THE_WAY = frozenset(("ok", "okay", "okey", "k", "kk", "alright", "all", "sounds", "sale", "va", "bueno"))
"""A yes of these words before a question only leads up to it ("ok so what time do you come")."""
_LEADING = SAID_BY_THE_WAY | {
    "so",
    "actually",
    "wait",
    "and",
    "y",
    "hi",
    "hey",
    "hello",
    "hola",
    "please",
    "oiga",
    "pues",
}
_BEFORE = frozenset((
    "yes", "yeah", "yep", "no", "nope", "ok", "okay", "sure", "hi", "hello", "hey", "hola", "and", "but", "so", "well",
    "also", "please", "thanks", "actually", "wait", "sorry",
    "si", "sip", "bueno", "oiga", "y", "pero", "gracias", "por", "para", "de", "a", "pues",
))  # fmt: skip
_FREE = {
    "any": frozenset(("chance", "opening", "openings", "slot", "slots", "spot", "spots", "availability")),
    "anything": frozenset((
        "earlier", "sooner", "later", "today", "tomorrow", "else", "on", "before", "after", "for", "available", "open",
    )),
    "hay": frozenset(("algo", "lugar", "espacio", "cita", "citas", "otra", "otro")),
    "cual": frozenset(("es", "seria")),
}  # fmt: skip
"""What is free, asked without a verb: "anything on Friday", "hay algo hoy"."""
_APPROVING = frozenset(("works", "work", "fine", "good", "great", "ok", "okay", "is", "bien"))
_WAS = frozenset(("es", "era", "seria", "quedo", "quedamos", "dijeron"))
_REACH = 3
"""Words between a question word and its verb: "what day of the week can you", "que dia pueden"."""


@dataclass(frozen=True, slots=True)
class Questions:
    """Places of words: ``plain`` in what is a question by its build, ``marked`` in that or before a question mark."""

    plain: frozenset[int]
    marked: frozenset[int]


NO_QUESTIONS = Questions(frozenset(), frozenset())


def questions(words: Sequence[Word]) -> Questions:
    """The words of a text that ask; of a whole text they are sought once."""
    if not isinstance(words, Words):
        return _questions(words)
    if words.asking is None:
        words.asking = _questions(words)
    kept: Questions = words.asking
    return kept


def _questions(words: Sequence[Word]) -> Questions:
    plain: set[int] = set()
    marked: set[int] = set()
    at, total = 0, len(words)
    while at < total:
        end = at + 1
        while end < total and words[end].brk < 2:
            end += 1
        begins = next((i for i in _may_begin(words, at, end) if _asks(words, i, end)), None)
        if begins is not None:
            plain.update(range(begins, end))
        if words[at].asks:
            marked.update(range(at, end))
        at = end
    return Questions(frozenset(plain), frozenset(plain | marked)) if plain or marked else NO_QUESTIONS


def said_besides(text: str, words: Sequence[Word], asking: Questions) -> str:
    """
    What *text* states beside its questions ("1, how much is it?"); empty for nothing, or nothing but an "ok so" before them.

    A sentence with a question mark that is none by its build ("tomorrow at 8?") asks as a whole.
    """
    built = {sentence for sentence, at in _sentences(words) if at in asking.plain}
    left = [
        words[at]
        for sentence, at in _sentences(words)
        if at not in asking.plain and (at not in asking.marked or sentence in built)
    ]
    if all(word.form in _LEADING for word in left):
        return ""
    return " ".join(text[word.start : word.end] for word in left)


def _sentences(words: Sequence[Word]) -> list[tuple[int, int]]:
    """Each word's place with the number of its sentence before it."""
    found, sentence = [], 0
    for at, word in enumerate(words):
        sentence += at > 0 and word.brk == 2
        found.append((sentence, at))
    return found


def _may_begin(words: Sequence[Word], sentence: int, end: int) -> Iterator[int]:
    """Where a question may begin: at a break, or after nothing but a yes, a greeting or a small word."""
    may = True
    for at in range(sentence, end):
        may = at == sentence or words[at].brk > 0 or (may and words[at - 1].form in _BEFORE)
        if may:
            yield at


def _asks(words: Sequence[Word], at: int, end: int) -> bool:
    form = words[at].form
    after = words[at + 1].form if at + 1 < end else ""
    if form in _SURELY:
        return True
    if form in TURNED:
        done = form in ("do", "did") and after in _OBJECTS and not words[at].asks
        return after in _SUBJECTS and not done
    if form in _TURNED_ES:
        return at == 0 or words[at].brk == 2
    if form in _FREE:
        return after in _FREE[form] and not _APPROVING & {word.form for word in words[at:end]}
    if form == "que" and at and words[at - 1].form == "por":
        return True
    if form not in _ASKING:
        return False
    if at + 1 == end or (form == "cuando" and after in _WAS and at + 2 == end):
        return True
    return any(
        (words[i].form in _INSIDE and i + 1 < end and words[i + 1].form in _SUBJECTS)
        or (form in ("what", "which", "who") and i == at + 1 and words[i].form in TURNED)
        or words[i].form in _TURNED_ES
        or (form == "que" and words[i].form in _WAS and words[i - 1].form in ("dia", "hora", "fecha"))
        for i in range(at + 1, min(at + 2 + _REACH, end))
    )


_PROPOSES = frozenset(("hows", "about"))
"""Right before a time they ask for it: “hows tomorrow”, “what about friday”."""
_TO_KNOW = frozenset((
    "who", "whos", "why", "whys", "how", "hows", "what", "whats", "quien", "quienes", "cuanto", "cuanta", "cual", "does",
    "is", "are", "did",
    "was",
))  # fmt: skip
_MAY_BE = frozenset((
    "can", "could", "would", "time", "day", "days", "dia", "openings", "available", "about", "open", "free", "possible", "ok",
    "okay", "works", "work", "puede", "pueden", "podria", "podrian",
))  # fmt: skip


def is_inquired(words: Sequence[Word], part: str, text: str) -> bool:
    """Whether *part* stands in a question that only wants to know (“whats the guys name coming tmrw”), and asks for nothing."""
    first = text.find(part)
    inside = [at for at, word in enumerate(words) if first <= word.start < first + len(part)]
    asking = questions(words)
    if not inside or not all(at in asking.marked for at in inside):
        return False
    begins = inside[0]
    if begins and words[begins - 1].form in _PROPOSES:
        return False
    while begins > 0 and words[begins].brk < 2:
        begins -= 1
    said = [word.form for word in words[begins : inside[-1] + 1]]
    return bool(_TO_KNOW & set(said[:6])) and not _MAY_BE & set(said)


def begins_a_question(text: str) -> bool:
    """Whether *text* has a question mark at its end or begins as one does: “do u take cards”, “how long does it take”."""
    if text.rstrip().endswith("?"):
        return True
    forms = re.findall(r"[a-z0-9]+", fold(text).replace("'", ""))
    while forms and forms[0] in _BEFORE - {"de", "a", "por", "para"}:
        forms = forms[1:]
    if len(forms) < _FEWEST_OF_A_QUESTION:
        return False
    return forms[0] in _ASKING_FIRST or (forms[0] in TURNED and forms[1] in _SUBJECTS) or forms[0] in _TURNED_ES


_FEWEST_OF_A_QUESTION = 3
_ASKING_FIRST = _ASKING - {"when", "que", "cuando", "como"}
"""Question words that begin no dependent clause of an answer ("when it spins", "como siempre")."""
