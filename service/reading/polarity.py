"""
Whether a fault is said to be so, said not to be so, or neither.

NegEx (Chapman and others, J. Biomed. Inform. 34(5), 2001) and ConText, turned round for complaints: a negated fault is its
absence, a negated function is the fault itself.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Collection, Sequence
from typing import Literal, NamedTuple

from service.reading.clauses import Clause, Marks
from service.reading.matching import Hit
from service.reading.normalising import CONTRASTS, Word
from service.reading.praising import WORKS, blameless, told_of_part
from service.reading.working import insists, told_to_work

Verdict = Literal["present", "denied", "nothing"]
SCOPE_WORDS = 6
"""How far a negation reaches when nothing ends it sooner (NegEx used five; texts chain more loosely)."""

_ONE_MORE = frozenset(["or", "nor", "and", "o", "ni", "y"])
_AND = frozenset(["and", "y", "e", "plus", "then"])
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

_NEW_SUBJECTS = frozenset(["its", "theres", "theyre", "im", "hay", "ahora", "now"])
_MINDS = frozenset((
    "think", "thinking", "see", "look", "looks", "like", "say", "believe", "know", "feel", "notice", "mean", "so",
    "that", "if", "because", "seem", "creo", "que", "parece", "veo", "sure", "says", "when", "where", "even", "and",
))  # fmt: skip
"""Words after which a new subject is still inside what is negated (“i dont think its leaking”)."""

_THAT_ONE = frozenset(["that", "has", "it", "its", "thats", "eso", "ya", "se", "did"])
"""What stands before "quit" or "stopped" where it is the fault that did."""

_ONCE = frozenset(["used", "antes", "before", "solia"])
"""Words of what was usual until it stopped; what befell once, years ago, is over and denies nothing."""

_ONLY_PRAISED = frozenset(["wont_stop", "runs_nonstop", "overfill"])
"""“it shuts off” may be the complaint itself; "it shuts off fine" is none."""

MOMENT = 3
"""How far into “when the light works” a part belongs to the moment; later on another statement may have begun."""

PUT_LAST = frozenset(["no", "nope", "nah"])
PUT_LAST_SURE = frozenset(["yes", "si", "yep"])

_ONLY = frozenset(["because", "porque", "just", "only", "solo", "nomas"])


class Judged(NamedTuple):
    """The verdict on one phrase, and the reason in words."""

    verdict: Verdict
    because: str
    weak: bool = False


class Polarity:
    """
    Judges the phrases of one text. ``taken``: phrases of faults; a verb's negation inside one ("wont do anything") says
    nothing of what follows.
    """

    def __init__(
        self,
        words: Sequence[Word],
        marks: Marks,
        clauses: Sequence[Clause],
        taken: Sequence[tuple[int, int]] = (),
        openers: frozenset[int] = frozenset(),
        named: frozenset[int] = frozenset(),
    ) -> None:
        self._words, self._marks = words, marks
        self._clause_of = [clause for clause in clauses for _ in range(clause.start, clause.end)]
        self._spent = _spent(taken, marks, words)
        self._taken, self._openers, self._named = frozenset(taken), openers, named
        self._negators = [s for s in marks.at("negators") if not self._only_an_answer(s)]
        self._turned = bool(self._negators or marks.at("stoppers") or marks.at("failing"))
        self._known: dict[tuple[int, int, int, bool], Judged] = {}

    def clause(self, word: int) -> Clause:
        """The clause *word* stands in."""
        return self._clause_of[word]

    def word(self, at: int) -> str:
        """The form of one word."""
        return self._words[at].form

    def _only_an_answer(self, span: tuple[int, int]) -> bool:
        """“no it leaks”, “no, leaks”: an answer, not a negation of what follows."""
        at = span[0]
        if self._is_put_last(at):
            return True
        if span[1] - at > 1 or self._words[at].form not in ("no", "nope", "nah") or self._words[at].brk < 2:
            return False
        if at + 1 >= len(self._words):
            return False
        after = self._words[at + 1]
        return after.brk >= 1 or after.form in (
            "it",
            "its",
            "i",
            "im",
            "the",
            "my",
            "there",
            "theres",
            "thats",
            "still",
            "but",
            "just",
            "sir",
            "maam",
            "senor",
            "senora",
            "senorita",
            "joven",
            "jefe",
            "mija",
            "mijo",
            "amigo",
            "dear",
            "hon",
        )

    def _is_put_last(self, at: int) -> bool:
        """“spins no, heats yes”: a "no" behind what it denies, at the end of its statement."""
        if not at or self._words[at].form not in PUT_LAST or self._words[at].brk:
            return False
        return at + 1 == len(self._words) or self._words[at + 1].brk > 0

    def judge(self, hit: Hit, *, function: bool) -> Judged:
        """What is said about the fault (or, with *function*, the function) that *hit* names."""
        asked = hit.start, hit.end, hit.negated, function
        judged = self._known.get(asked)
        if judged is None:
            judged = self._known[asked] = self._judge(hit, function=function)
        return judged

    def judge_thing(self, hit: Hit, passed: Collection[int]) -> Judged:
        """What is said of the part that *hit* names; *passed*: the words of other parts and of machines."""
        clause = self._clause_of[hit.start]
        moment = clause.when and hit.start - clause.start <= MOMENT
        framed = self._framed(clause, hit) or ("it only says when" if moment else None)
        told = None if framed else told_of_part(hit, self._words, self._marks, passed)
        if told == "fine":
            return Judged("denied", "it is said to be fine", weak=True)
        if told == "failing":
            return Judged("present", "it is said not to do so", weak=True)
        return Judged("nothing", framed or "it is only named")

    def _judge(self, hit: Hit, *, function: bool) -> Judged:
        clause = self._clause_of[hit.start]
        elsewhere = clause.past or clause.others or clause.asked
        if function and not elsewhere and insists(self._words, hit, self._negators):
            return Judged("denied", "it is said to do so")
        framed = self._framed(clause, hit)
        if framed and clause.past and not function and self._taken_back(clause):
            return Judged("denied", "it is said to be so no longer")
        if framed:
            return Judged("nothing", framed)
        negative, stopped, failing = self._before(hit, clause, function=function)
        negative += hit.negated
        if negative == 2 and not (function and hit.negated) and not self._doubled(hit):
            negative = 1
        if function:
            return self._function(hit, clause, negative, stopped, failing)
        return self._fault(hit, clause, negative, stopped)

    def _framed(self, clause: Clause, hit: Hit) -> str | None:
        if clause.if_:
            return "it is only supposed"
        if clause.past:
            return "it was so long ago"
        if clause.others:
            return "it is about somebody else's machine"
        if clause.asked:
            return "it is asked, not told"
        if clause.unsure_from is not None and clause.unsure_from <= hit.start:
            return "the customer does not know"
        return None

    def _taken_back(self, clause: Clause) -> bool:
        """“it used to leak | but not anymore”, “tronaba mucho | pero eso ya no”, “leaked | and that has quit on its own”."""
        after: list[str] = []
        for word in self._words[clause.end : clause.end + 5]:
            if word.brk == 2 and after:
                break
            after.append(word.form)
        last = clause.end + len(after)
        turned = any(clause.end <= a < last for a, _ in self._negators)
        if turned and ("anymore" in after or ("ya" in after and "no" in after)):
            return True
        if not any(word.form in _ONCE for word in self._words[clause.start : clause.end]):
            return False
        over = self._marks.at("stoppers") + self._marks.at("gone")
        return any(
            a < last and b > clause.end and self._words[a - 1].form in _THAT_ONE for a, b in over if a >= clause.end
        )

    def _before(self, hit: Hit, clause: Clause, *, function: bool) -> tuple[int, int, int]:
        """How many negations, "stopped" and "trouble" reach the phrase from its left."""
        if not self._turned:
            return 0, 0, 0
        reach = max(clause.start, hit.start - SCOPE_WORDS)
        near = [
            (a, b) for a, b in self._negators[bisect_left(self._negators, (reach, 0)) :][:SCOPE_WORDS] if b <= hit.start
        ]
        nominal = [a for a, _ in near if self._words[a].form in _NOMINAL]
        negative = sum(
            1
            for a, b in near
            if self._reaches(b, hit.start)
            and not any(b <= n for n in nominal)
            and self._still_holds(a, hit.start, function=function)
            and not (function and self._of_another_verb(a, b, hit.start))
            and not (b < hit.start and self._stands_apart(a, b, hit, function=function))
        )
        stopped = sum(1 for a, b in self._marks.at("stoppers") if reach <= a and self._stops(b, hit))
        if stopped and not negative and any(self._reaches(b, hit.start) for _, b in near):
            negative = 1
        failing = sum(1 for a, b in self._marks.at("failing") if reach <= a and b <= hit.start and hit.start - b <= 3)
        return negative, stopped, failing

    def _doubled(self, hit: Hit) -> bool:
        """Whether two negations undo each other (“I don't think it isn't leaking”); most insist: “no sir it doesn't leak”."""
        first = max((a for a, b in self._negators if b <= hit.start), default=hit.start)
        before = range(max(self._clause_of[hit.start].start, first - SCOPE_WORDS), first)
        return any(self._words[at].form in _MINDS for at in before)

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
        return all(self._words[at].form in _ARTICLES for at in range(after, hit.start))

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
            if word.form in _AND and not (
                at + 1 < len(self._words) and self._words[at + 1].en == self._words[at + 1].form
            ):
                return False
            if self._begins_in_spanish(at, after):
                return False
            if word.form in _ONLY or (verbal and self._turns_to_another(at, after)):
                return False
        return True

    def _stands_apart(self, first: int, after: int, hit: Hit, *, function: bool) -> bool:
        """
        “no calienta, gira eso sí”, “no leak, light out”: what follows the comma behind a "no" is a statement of its own, unless the
        list goes on (“no leaks, smells or noise”).
        """
        words = self._words
        if words[first].form not in _NOMINAL or not any(word.brk == 1 for word in words[after : hit.start + 1]):
            return False
        if any(word.form in _ONE_MORE for word in words[after : hit.end + 2]):
            return False
        return function or words[hit.end - 1].form in _STATING

    def _of_another_verb(self, first: int, after: int, start: int) -> bool:
        """“won't heat anything | turns and lights up”: "won't" governs no verb in -s, but the one right behind it."""
        word = self._words[start]
        if self._words[first].form in _NOMINAL or after >= start:
            return False
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
        if word.form == "es" and following.form == "que":
            return True
        return word.form == "se" and at - after >= 2 and words[at - 1].form not in _MINDS and words[at - 1].form != "no"

    def _turns_to_another(self, at: int, after: int) -> bool:
        """Whether a verb's negation is over where another subject begins: “wont drain | its all over the floor”."""
        return self._words[at].form in _NEW_SUBJECTS and at > after and self._words[at - 1].form not in _MINDS

    def _fault(self, hit: Hit, clause: Clause, negative: int, stopped: int) -> Judged:
        if hit.end - hit.start > 1 and self._is_put_last(hit.start):
            return Judged("nothing", "its “no” belongs to what stands before it")
        if stopped and negative:
            return Judged("present", "it is said not to stop")
        if stopped:
            return Judged("denied", "it is said to have stopped")
        if negative % 2 == 1:
            return Judged("denied", "it is said not to be so")
        if hit.skipped and self._well_before_another(hit):
            return Judged("nothing", "it is said to be fine, and the rest is of something else")
        if self._after("gone", hit, clause, 4):
            negated = self._negated_after("gone", hit, clause, 4)
            return (
                Judged("present", "it is said not to go away") if negated else Judged("denied", "it is said to be over")
            )
        return Judged("present", "it is said to be so")

    def _well_before_another(self, hit: Hit) -> bool:
        """“burners are fine, | oven won't heat”: the words skipped in a fault praise its subject, and another begins."""
        own = self._clause_of[hit.start]
        if hit.skipped and self._works_inside(hit):
            return True
        for a, b in self._marks.at("fine"):
            if hit.start < a and b <= own.end and b < hit.end and not any(hit.start < n < a for n, _ in self._negators):
                return own.end < hit.end or any(self._words[n].form in _NEW_SUBJECTS for n in range(b, hit.end))
        return False

    def _works_inside(self, hit: Hit) -> bool:
        """“fan works, | buttons don't”: the words skipped in a fault say that its subject works."""
        for at in range(hit.start + 1, hit.end - 1):
            word, after = self._words[at], self._words[at + 1]
            if any(hit.start <= a <= at for a, _ in self._negators):
                return False
            if word.form in WORKS and (after.brk or after.form in _AND):
                return True
        return False

    def _function(self, hit: Hit, clause: Clause, negative: int, stopped: int, failing: int) -> Judged:
        if blameless(hit.start, self._words):
            return Judged("denied", "nothing is said to be wrong with it")
        if not negative and (put_last := self._put_last(hit)) is not None:
            return put_last
        against = negative + stopped + failing
        if against >= 2:
            return (
                Judged("denied", "it is said to be no trouble") if failing else Judged("nothing", "it is said to go on")
            )
        if against == 1:
            return Judged("present", "it is said not to do so")
        if any(clause.start <= a < hit.start and hit.start - b <= 2 for a, b in self._marks.at("diminishers")):
            return Judged("nothing", "it is said to do so only in part")
        praised = any(hit.start <= a and b == hit.end for a, b in self._marks.at("fine"))
        if not praised and self._after("broken_down", hit, clause, 5):
            return Judged("present", "that function is said to be out")
        if clause.when:
            return Judged("nothing", "it only says when")
        fine = self._fine(hit, clause)
        if fine is not None:
            return fine
        return self._plain(hit, clause)

    def _put_last(self, hit: Hit) -> Judged | None:
        """“spins no, heats yes”, “gira sí”."""
        if hit.end >= len(self._words) or self._words[hit.end].brk:
            return None
        if self._is_put_last(hit.end):
            return Judged("present", "it is said not to do so", weak=True)
        at = hit.end + (self._words[hit.end].form == "eso")
        if at < len(self._words) and self._words[at].form in PUT_LAST_SURE and self._ends(at):
            return Judged("denied", "it is said to do so")
        return None

    def _ends(self, at: int) -> bool:
        return at + 1 == len(self._words) or self._words[at + 1].brk > 0 or self._words[at + 1].form in CONTRASTS

    def _fine(self, hit: Hit, clause: Clause) -> Judged | None:
        """Praise after or right before the function (“drains fine”, “good suction”)."""
        for a, b in self._marks.at("fine"):
            if not (clause.start <= a < clause.end) or (a >= hit.start and b <= hit.end):
                continue
            if hit.end <= a <= hit.end + SCOPE_WORDS or 0 <= hit.start - b <= 1:
                if any(hit.end <= n and m <= a for n, m in self._negators):
                    return Judged("present", "it is said not to do so well", weak=True)
                return Judged("denied", "it is said to do so")
        return None

    def _plain(self, hit: Hit, clause: Clause) -> Judged:
        """“it drains”, “light comes on but”: a plain statement with nothing after it, or with a contrast."""
        if hit.payload.code in _ONLY_PRAISED:
            return Judged("nothing", "that it stops is no praise")
        end = max(self._clause_of[hit.end - 1].end, clause.end)
        if told_to_work(
            self._words,
            hit.start,
            hit.end,
            (clause.start, end),
            spanish=hit.payload.spanish,
            openers=self._openers,
            named=self._named,
        ):
            return Judged("denied", "it is said to do so", weak=True)
        return Judged("nothing", "it is only named")

    def _after(self, name: str, hit: Hit, clause: Clause, reach: int) -> bool:
        places = self._marks.at(name)
        return bool(places) and any(hit.end <= a <= hit.end + reach and a < clause.end for a, _ in places)

    def _negated_after(self, name: str, hit: Hit, clause: Clause, reach: int) -> bool:
        for a, _ in self._marks.at(name):
            if hit.end <= a <= hit.end + reach and a < clause.end:
                return any(hit.end <= n and m <= a for n, m in self._negators)
        return False

    def negated_before(self, hit: Hit, *, nominal: bool = False) -> bool:
        """Whether a negation stands right before *hit* (within three words of its clause); *nominal*: a "no" or "without"."""
        if not self._negators:
            return False
        clause = self._clause_of[hit.start]
        near = [(a, b) for a, b in self._negators if clause.start <= a and b <= hit.start and hit.start - b <= 2]
        return any(
            (not nominal or self._words[a].form in _NOMINAL) and not self._is_a_faults_own(a, hit.start)
            for a, _ in near
        )

    def _is_a_faults_own(self, negator: int, start: int) -> bool:
        """Whether a negation belongs to a fault told before *start* ("no heat | can someone come")."""
        return any(first <= negator and negator + 1 < last <= start for first, last in self._taken)


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
