"""
How far a "no", a "won't" or a "stopped" reaches, and which of them deny nothing of what follows.

NegEx (Chapman and others, J. Biomed. Inform. 34(5), 2001) for the reach; what ends it is told by grammar: a comma behind
a verb, another subject, a verb of its own.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from itertools import pairwise

from service.reading.words.clauses import Clause
from service.reading.words.marks import Marks
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word
from service.reading.words.slips import is_slip

SCOPE_WORDS = 6
"""How far a negation reaches when nothing ends it sooner (NegEx used five; texts chain more loosely)."""

_ONE_MORE = frozenset(["or", "nor", "and", "o", "ni", "y"])
_NOR = frozenset(["or", "nor", "o", "ni", "tampoco"])
AND = frozenset(["and", "y", "e", "plus", "then"])
_NOMINAL = frozenset(["no", "without", "nor", "neither", "none", "sin", "ni", "ningun", "ninguna"])
"""Negations that a comma carries on ("no leaks, smells or noise"); after a verb's it does not."""

_ARTICLES = frozenset((
    "the", "a", "an", "any", "my", "its", "this", "that", "all", "making", "doing", "from", "of", "el", "la", "los",
    "las", "un", "una", "de", "hacer", "tirar", "salir", "ya", "completely", "it",
))  # fmt: skip
"""Words between "stop" and what stopped."""

_STATING = frozenset(
    ["out", "dead", "gone", "broken", "off", "on", "burned", "fundido", "quemado", "muerto", "everywhere"]
)
"""Words that end a statement of their own behind a comma: “no leak, light out”."""

_FEMININE = frozenset((
    "fuga", "agua", "flama", "llama", "chispa", "espuma", "alarma", "nada", "nadie", "escarcha", "peste", "corriente", "luz",
    "tampoco", "siempre", "grasa", "parte", "puerta", "que", "menos", "otra", "este", "esta", "ese", "esa", "gente",
))  # fmt: skip
"""Words that end as a Spanish verb of the present does and are none."""

NEW_SUBJECTS = frozenset(["its", "theres", "theyre", "im", "hay", "ahora", "now"])
_MINDS = frozenset((
    "think", "thinking", "see", "look", "looks", "like", "say", "believe", "know", "feel", "notice", "mean", "so",
    "that", "if", "because", "seem", "creo", "que", "parece", "veo", "sure", "says", "when", "where", "even", "and",
))  # fmt: skip
"""Words after which a new subject is still inside what is negated (“i dont think its leaking”)."""

_STANDS = frozenset(["is", "are", "stays", "esta", "estan", "sigue", "siguen", "queda"])
_EVERY = frozenset(["day", "dia", "week", "semana", "load", "carga", "night", "noche"])
_SAID = frozenset(["say", "saying", "es", "claim"])
_SAID_WITHIN = 4
_NEAR = 3
_TWO = 2
_NO_TROUBLE = frozenset(["problem", "problems", "prob", "issue", "issues", "doubt", "worries", "problema", "duda"])
_OF = frozenset(["with", "con", "about", "of", "de", "a", "in", "when", "cuando", "para", "to"])

_NO_OWN = frozenset(["no", "sin", "ni", "without", "nada"])
"""A fault that begins with its own of these is not denied by the one of another."""

PUT_LAST = frozenset(["no", "nope", "nah"])


_IT = frozenset(["it", "its"])
_ONLY = frozenset(["because", "porque", "just", "only", "solo", "nomas"])

_ANSWERED = frozenset((
    "it", "its", "i", "im", "the", "my", "there", "theres", "thats", "still", "but", "just", "not", "sir", "maam", "senor",
    "senora", "senorita", "joven", "jefe", "mija", "mijo", "amigo", "dear", "hon",
))  # fmt: skip
"""What stands behind a "no" that only answers: another beginning, or who is spoken to."""


class Negations:
    """
    The negations of one text that deny what follows. ``taken``: phrases of faults; a verb's negation inside one ("wont do
    anything") says nothing of what follows.
    """

    def __init__(
        self, words: Sequence[Word], marks: Marks, clause_of: Sequence[Clause], taken: Sequence[tuple[int, int]]
    ) -> None:
        self._words, self._marks, self._clause_of = words, marks, clause_of
        self._spent, self._taken = _spent(taken, marks, words), frozenset(taken)
        self.spans = self._but_every_day([s for s in marks.at("negators") if not self._only_an_answer(s)])
        self._turned = bool(self.spans or marks.at("stoppers") or marks.at("failing"))

    def _only_an_answer(self, span: tuple[int, int]) -> bool:
        """“no it leaks”, “no, leaks”, “no wait it leaks”: an answer, not a negation of what follows."""
        at = span[0]
        if self.put_last(at) or self._is_no_trouble(at) or is_slip(self._words, at):
            return True
        if span[1] - at > 1 or self._words[at].form not in ("no", "nope", "nah") or self._words[at].brk < 2:
            return False
        if at + 1 >= len(self._words):
            return False
        after = self._words[at + 1]
        return after.brk >= 1 or after.form in _ANSWERED

    def _is_no_trouble(self, at: int) -> bool:
        """“it clears the steam no problem | its the light”: it denies nothing behind it; “no problem with leaks” does."""
        if at + 2 >= len(self._words) or self._words[at + 1].form not in _NO_TROUBLE:
            return False
        after = self._words[at + 2]
        return after.brk > 0 or not (after.form in _OF or after.form.endswith(("ing", "ndo")))

    def _but_every_day(self, spans: list[tuple[int, int]]) -> list[tuple[int, int]]:
        """*spans* without the two of “not a day goes by that it doesn't trip”, “no hay día que no bote”: it always does."""
        for first, second in pairwise(spans):
            between = self._words[first[1] : second[0]]
            if any(word.form in _EVERY for word in between[:3]) and not any(word.brk for word in between):
                return [span for span in spans if span not in (first, second)]
        return spans

    def unsaid(self, hit: Hit) -> bool:
        """“I can't say it doesn't heat”, “no es que no enfríe”: that it fails is what is denied."""
        if len(self.spans) < _TWO or not any(word.form in _SAID for word in self._words[: hit.start]):
            return False
        for first, second in pairwise([span for span in self.spans if span[1] <= hit.start][-_TWO:]):
            between = self._words[first[1] : second[0]]
            near = len(between) <= _SAID_WITHIN and hit.start - second[1] <= 1
            if near and between and between[0].form in _SAID and not any(word.brk for word in between):
                return between[0].form != "es" or between[-1].form == "que"
        return False

    def put_last(self, at: int) -> bool:
        """“spins no, heats yes”: a "no" behind what it denies, at the end of its statement."""
        if not at or self._words[at].form not in PUT_LAST or self._words[at].brk:
            return False
        return at + 1 == len(self._words) or self._words[at + 1].brk > 0

    def reach(self, hit: Hit, clause: Clause, *, function: bool) -> tuple[int, int, int]:
        """How many negations, "stopped" and "trouble" reach the phrase from its left."""
        if not self._turned:
            return 0, 0, 0
        reach = max(clause.start, hit.start - SCOPE_WORDS)
        near = [(a, b) for a, b in self.spans[bisect_left(self.spans, (reach, 0)) :][:SCOPE_WORDS] if b <= hit.start]
        if near and not function and self._words[hit.start].form in _NO_OWN:
            near = [
                (a, b) for a, b in near if b == hit.start or self._words[a].form not in _NO_OWN
            ]  # "no ice no water"
        if function and any(word.brk for word in self._words[hit.start + 1 : hit.end]):
            near = [(a, b) for a, b in near if self._words[a].form != "not"]  # "not the burners, | those light up"
        nominal = [a for a, _ in near if self._words[a].form in _NOMINAL]
        negative = sum(
            1
            for a, b in near
            if self._reaches(b, hit.start)
            and not any(b <= n for n in nominal)
            and self._still_holds(a, hit.start, function=function)
            and not (function and self._of_another_verb(a, b, hit))
            and not (b < hit.start and self._stands_apart(a, b, hit, function=function))
        )
        stopped = sum(1 for a, b in self._marks.at("stoppers") if reach <= a and self._stops(b, hit))
        if stopped and not negative and any(self._reaches(b, hit.start) for _, b in near):
            negative = 1
        failing = sum(1 for a, b in self._marks.at("failing") if reach <= a and self._fails(b, hit))
        return negative, stopped, failing

    def doubled(self, hit: Hit) -> bool:
        """Whether two negations undo each other (“I don't think it isn't leaking”); most insist: “no sir it doesn't leak”."""
        first = max((a for a, b in self.spans if b <= hit.start), default=hit.start)
        if any(b == first for _, b in self.spans):
            return True  # "never not running"
        other = max((b for _, b in self.spans if b <= first), default=0)
        before = range(max(self._clause_of[hit.start].start, first - SCOPE_WORDS, other), first)
        return any(
            self._words[at].form in _MINDS
            and not (self._words[at].form == "so" and self._words[at + 1].form in PUT_LAST)
            for at in before
        )

    def _still_holds(self, negation: int, start: int, *, function: bool) -> bool:
        """Whether no phrase has taken *negation* for itself; of functions one more may follow: “wont drain or spin”."""
        end = self._spent.get(negation, start + 1)
        return end > start or (function and end == start - 1 and self._words[end].form in _ONE_MORE)

    def _stops(self, after: int, hit: Hit) -> bool:
        """
        Whether what stopped is what *hit* names: right behind (“stopped leaking”, “stop the leak”), and no stop itself.
        """
        if not 0 <= hit.start - after <= 2 or any(hit.start <= a < hit.end for a, _ in self._marks.at("stoppers")):
            return False
        if any(word.brk for word in self._words[after : hit.start + 1]):
            return False  # "fan stopped, | light works"
        return all(self._words[at].form in _ARTICLES for at in range(after, hit.start))

    def _fails(self, after: int, hit: Hit) -> bool:
        """“trouble draining”; what stands behind a comma is told anew: “tengo un problema con la lavadora, llena y llena”."""
        return 0 <= hit.start - after <= _NEAR and not any(word.brk for word in self._words[after : hit.start + 1])

    def _reaches(self, after: int, start: int) -> bool:
        """
        Whether nothing between a negation and a phrase ends its scope: "and" does unless the list goes on in base
        form.
        """
        verbal = self._words[after - 1].form not in _NOMINAL
        if self._words[start].form in _ONLY or (verbal and any(w.brk == 1 for w in self._words[after : start + 1])):
            return False
        for at in range(after, start):
            word = self._words[at]
            if word.form in AND and not (
                at + 1 < len(self._words) and self._words[at + 1].en == self._words[at + 1].form
            ):
                return False
            if self._begins_in_spanish(at, after):
                return False
            if word.form in _IT and any(last == at for _, last in self._taken):
                return False  # "mine doesnt leak | it rattles"
            if word.form in _ONLY or (verbal and self._turns_to_another(at, after)):
                return False
        return True

    def _stands_apart(self, first: int, after: int, hit: Hit, *, function: bool) -> bool:
        """
        “no calienta, gira eso sí”, “no leak, light out”: what follows the comma behind a "no" is a statement of its own,
        unless the list goes on (“no leaks, smells or noise”).
        """
        words = self._words
        if words[first].form not in _NOMINAL or not any(word.brk == 1 for word in words[after : hit.start + 1]):
            return False
        listed = hit.start if function and hit.end - hit.start > 1 else hit.end + 2
        more = _NOR if function and hit.payload.spanish and _is_of_the_present(words[hit.start]) else _ONE_MORE
        if any(word.form in more for word in words[after:listed]):
            return False
        stated = any(word.form in _STANDS for word in words[hit.start + 1 : hit.end])
        return function or stated or words[hit.end - 1].form in _STATING

    def _of_another_verb(self, first: int, after: int, hit: Hit) -> bool:
        """
        “won't heat anything | turns and lights up”: "won't" governs no verb in -s, but the one right behind it; nor does a
        "no" govern what is said with a verb of its own, “no es fuga | abajo está seco”.
        """
        words, start = self._words, hit.start
        if start - after < 2:
            return False
        if any(word.form in _STANDS for word in words[start + 1 : hit.end]):
            return not any(word.form in _MINDS for word in words[after:start])
        if words[first].form in _NOMINAL:
            return False
        word = words[start]
        return word.form.endswith("s") and word.form != word.en and not word.form.endswith("ss")

    def _begins_in_spanish(self, at: int, after: int) -> bool:
        """“no pega el hule | se queda abierta”, “no drena y gotea”, “no me gusta es que huele”: a verb of its own begins."""
        word, words = self._words[at], self._words
        if at + 1 >= len(words):
            return False
        following = words[at + 1]
        if word.form in ("y", "e"):
            third = following.form != following.es and following.form.endswith(("a", "e", "an", "en"))
            return third and following.form not in _FEMININE
        if word.form == "es" and (word.brk or following.form == "que"):
            return at > after  # "no es que esté muerto" denies what follows; “no es fuga, es la perilla”
        return word.form == "se" and at - after >= 2 and words[at - 1].form not in _MINDS and words[at - 1].form != "no"

    def _turns_to_another(self, at: int, after: int) -> bool:
        """Whether a verb's negation is over where another subject begins: “wont drain | its all over the floor”."""
        return self._words[at].form in NEW_SUBJECTS and at > after and self._words[at - 1].form not in _MINDS

    def right_before(self, hit: Hit, *, nominal: bool = False) -> bool:
        """Whether a negation stands right before *hit* (within three words of its clause); *nominal*: a "no" or "without"."""
        if not self.spans:
            return False
        clause = self._clause_of[hit.start]
        near = [(a, b) for a, b in self.spans if clause.start <= a and b <= hit.start and hit.start - b <= 2]
        return any(
            (not nominal or self._words[a].form in _NOMINAL) and not self._is_a_faults_own(a, hit.start)
            for a, _ in near
        )

    def _is_a_faults_own(self, negator: int, start: int) -> bool:
        """Whether a negation belongs to a fault told before *start* ("no heat | can someone come")."""
        return any(first <= negator and negator + 1 < last <= start for first, last in self._taken)


def _is_of_the_present(word: Word) -> bool:
    """“exprime”: behind a comma it states something, “no brinca, exprime y desagua”; only a "ni" carries a "no" on to it."""
    return word.form != word.es and word.form.endswith(("a", "e", "an", "en")) and word.form not in _FEMININE


def _spent(taken: Sequence[tuple[int, int]], marks: Marks, words: Sequence[Word]) -> dict[int, int]:
    """The verbs' negations that stand in phrases with no "stop" in them, each with the end of the shortest such phrase."""
    spent: dict[int, int] = {}
    negators, stops = marks.at("negators"), sorted(a for a, _ in marks.at("stoppers"))
    for first, last in set(taken) if negators else ():
        if bisect_left(stops, first + 1) < bisect_left(stops, last):
            continue
        for a, b in negators[bisect_left(negators, (first, 0)) : bisect_left(negators, (last, 0))]:
            if b < last and words[a].form not in _NOMINAL:
                spent[a] = min(spent.get(a, last), last)
    return spent
