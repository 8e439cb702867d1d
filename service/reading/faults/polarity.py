"""
Whether a fault is said to be so, said not to be so, or neither.

NegEx (Chapman and others, J. Biomed. Inform. 34(5), 2001) and ConText, turned round for complaints: a negated fault is its
absence, a negated function is the fault itself.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import Literal, NamedTuple

from service.reading.faults.as_ever import is_as_ever
from service.reading.faults.doing_nothing import befalls_nothing, does_nothing
from service.reading.faults.insisting import insists
from service.reading.faults.limits import (
    is_bid,
    is_cut_short,
    is_explained,
    is_over_for_now,
    is_to_be_mended,
    others_do_not,
    was_and_is_not,
)
from service.reading.faults.mending import is_wished, mended_before
from service.reading.faults.negating import AND, NEW_SUBJECTS, SCOPE_WORDS, Negations
from service.reading.faults.other_things import ELSEWHERE, said_of_others
from service.reading.faults.praising import TURNS, WORKS, blameless, told_of_part
from service.reading.faults.said_last import denied_last, ends_with
from service.reading.faults.working import openers, told_to_work
from service.reading.words.clauses import Clause
from service.reading.words.marks import Marks
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word

Verdict = Literal["present", "denied", "nothing"]
_OF_BOTH_HALVES = frozenset(["warm_fridge", "warm_freezer"])
"""Faults told of two parts at once: “freezer is frozen solid, fridge is warm”."""
_THE = frozenset(["the", "my", "el", "la", "los", "las", "mi"])
_COMES, _ON = frozenset(["comes", "come", "goes", "turns", "kicks"]), frozenset(["on", "up"])
"""“light comes on | fan blows”."""

_ONLY_PRAISED = frozenset(["wont_stop", "runs_nonstop", "overfill"])
"""“it shuts off” may be the complaint itself; "it shuts off fine" is none."""

_ANYTHING = "vague"
"""What only works or does not: “tried it all, nothing worked” is no complaint."""

_LEAK = "leak"
"""What is dry does not leak; only a "not" right before it says that it is wet."""

PUT_LAST_SURE = frozenset(["yes", "si", "yep"])
MOMENT = 3
"""How far into “when the light works” a part belongs to the moment; later on another statement may have begun."""


class Judged(NamedTuple):
    """The verdict on one phrase, and the reason in words."""

    verdict: Verdict
    because: str
    weak: bool = False


class Polarity:
    """
    Judges the phrases of one text. ``taken``: phrases of faults, whose negations are their own. ``anew``: where something
    else is spoken of; ``named``: where machines are named.
    """

    def __init__(
        self,
        words: Sequence[Word],
        marks: Marks,
        clauses: Sequence[Clause],
        taken: Sequence[tuple[int, int]] = (),
        anew: frozenset[int] = frozenset(),
        named: frozenset[int] = frozenset(),
    ) -> None:
        self._words, self._marks = words, marks
        self._clause_of = [clause for clause in clauses for _ in range(clause.start, clause.end)]
        self._openers, self._named = anew, named
        self._negations = Negations(words, marks, self._clause_of, taken)
        self._negators = self._negations.spans
        self._known: dict[tuple[int, int, int, bool], Judged] = {}

    @classmethod
    def of(
        cls, words: Sequence[Word], marks: Marks, clauses: Sequence[Clause], hits: Sequence[Hit], named: frozenset[int]
    ) -> Polarity:
        """The judge of a text with the symptoms *hits*, machines *named* at those words; it marks what is of none."""
        marks.spans[ELSEWHERE] = said_of_others(words, clauses, named)
        signs = [(hit.start, hit.end) for hit in hits if hit.payload.role == "sign"]
        return cls(words, marks, clauses, signs, openers(hits, words), named)

    def clause(self, word: int) -> Clause:
        """The clause *word* stands in."""
        return self._clause_of[word]

    def word(self, at: int) -> str:
        """The form of one word."""
        return self._words[at].form

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
        if told == "fine" and not others_do_not(self._words, hit.end):
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
        mended = None if function else mended_before(self._words, hit)
        told = not (clause.if_ or clause.others or clause.asked or function)
        if told and was_and_is_not(self._words, hit, clause, self._marks, self._negators):
            return Judged("denied", "it is said to be so no longer")
        if framed and not function and is_over_for_now(self._words, clause, self._marks):
            return Judged("denied", "it is over unless it comes again", weak=True)
        if framed:
            return Judged("nothing", framed)
        negative, stopped, failing = self._negations.reach(hit, clause, function=function)
        negative += hit.negated
        if negative == 2 and not (function and hit.negated) and not self._negations.doubled(hit):
            negative = 1
        if function:
            return self._function(hit, clause, negative, stopped, failing)
        return Judged(*mended) if mended else self._fault(hit, clause, negative, stopped)

    def _framed(self, clause: Clause, hit: Hit) -> str | None:
        if clause.if_:
            return "it is only supposed"
        if is_bid(self._words, hit.start):
            return "people are told to leave it"
        if clause.past:
            return "it was so long ago"
        if clause.others:
            return "it is about somebody else's machine"
        if hit.payload.kind != "urgency" and hit.start in self._marks.starts(ELSEWHERE):
            return "it is about something else than a machine"
        if clause.asked:
            return "it is asked, not told"
        if clause.unsure_from is not None and clause.unsure_from <= hit.start:
            return "the customer does not know"
        return None

    def _fault(self, hit: Hit, clause: Clause, negative: int, stopped: int) -> Judged:
        if hit.end - hit.start > 1 and self._negations.put_last(hit.start):
            return Judged("nothing", "its “no” belongs to what stands before it")
        if is_cut_short(hit, self._words) or is_explained(hit, self._words):
            return Judged("nothing", "it is part of what tells something else")
        if stopped and negative:
            return Judged("present", "it is said not to stop")
        if stopped:
            return Judged("denied", "it is said to have stopped")
        if negative % 2 == 1 or (not negative and befalls_nothing(self._words, hit.start, hit.end)):
            return Judged("denied", "it is said not to be so")
        if not negative and denied_last(hit, self._words, self._negators):
            return Judged("denied", "it is said not to be so", weak=True)
        if hit.skipped and self._well_before_another(hit):
            return Judged("nothing", "it is said to be fine, and the rest is of something else")
        if self._after("gone", hit, clause, 4) and not is_wished(self._words[clause.start : hit.end + 4]):
            if self._negated_after("gone", hit, clause, 4) or is_to_be_mended(self._words, hit.start):
                return Judged("present", "it is said not to go away")
            return Judged("denied", "it is said to be over")
        if is_as_ever(self._words, self._marks, (hit.start, hit.end)):
            return Judged("nothing", "it is said to be as it should be, or always was")
        return Judged("present", "it is said to be so")

    def _well_before_another(self, hit: Hit) -> bool:
        """“burners are fine, | oven won't heat”: the words skipped in a fault praise its subject, and another begins."""
        own = self._clause_of[hit.start]
        if hit.skipped and (self._works_inside(hit) or self._runs_into_another(hit)):
            return True
        for a, b in self._marks.at("fine"):
            if hit.start < a and b <= own.end and b < hit.end and not any(hit.start < n < a for n, _ in self._negators):
                return own.end < hit.end or any(self._words[n].form in NEW_SUBJECTS for n in range(b, hit.end))
        return False

    def _runs_into_another(self, hit: Hit) -> bool:
        """“the fan on my hood, | the light is out”: behind the comma stands another subject, with what is said of it."""
        if hit.payload.code in _OF_BOTH_HALVES:
            return False
        for at in range(hit.start + 1, hit.end - 1):
            if self._words[at].brk and (self._words[at].form in _THE or at in self._named):
                return True
        return False

    def _works_inside(self, hit: Hit) -> bool:
        """“fan works, | buttons don't”: the words skipped in a fault say that its subject works."""
        for at in range(hit.start + 1, hit.end - 1):
            word, after = self._words[at], self._words[at + 1]
            if any(hit.start <= a <= at for a, _ in self._negators):
                return False
            if word.form in (WORKS | TURNS) and (after.brk or after.form in AND or at + 1 in self._openers):
                return True
            if word.form in _COMES and after.form in _ON and at + 2 in self._openers:
                return True
        return False

    def _function(self, hit: Hit, clause: Clause, negative: int, stopped: int, failing: int) -> Judged:
        if blameless(hit.start, self._words):
            return Judged("denied", "nothing is said to be wrong with it")
        if not negative and (put_last := self._put_last(hit)) is not None:
            return put_last
        if hit.payload.code == _LEAK and not any(hit.start - 2 <= a < hit.end for a, _ in self._negators):
            negative = 0  # "no gotea, está seco"
        against = negative + stopped + failing
        if not against and hit.payload.code != _ANYTHING and does_nothing(self._words, hit.start, hit.end):
            return Judged("present", "nothing is said to do so", weak=True)
        if negative and self._negations.unsaid(hit):
            return Judged("denied", "it is said not to fail")
        if against >= 2:
            return Judged("denied", "it is no trouble") if failing else Judged("nothing", "it is said to go on")
        if against == 1:
            return Judged("present", "it is said not to do so")
        if any(clause.start <= a < hit.start and hit.start - b <= 2 for a, b in self._marks.at("diminishers")):
            return Judged("nothing", "it is said to do so only in part")
        praised = any(hit.start <= a <= hit.end <= b for a, b in self._marks.at("fine"))
        out = not praised and self._after("broken_down", hit, clause, 5, apart=False)
        if out and not self._negated_after("broken_down", hit, clause, 5):
            return Judged("present", "that function is said to be out")
        if clause.when or others_do_not(self._words, hit.end):
            return Judged("nothing", "it only says when, or of which")
        return self._fine(hit, clause) or self._plain(hit, clause)

    def _put_last(self, hit: Hit) -> Judged | None:
        """“spins no, heats yes”, “gira sí”."""
        if hit.end >= len(self._words) or self._words[hit.end].brk:
            return None
        if self._words[hit.end].form == "nothing" and ends_with(hit.end, self._words):
            return Judged("present", "it is said to do so with nothing", weak=True)
        if self._negations.put_last(hit.end) and not any(hit.start <= a < hit.end for a, _ in self._negators):
            return Judged("present", "it is said not to do so", weak=True)
        at = hit.end + (self._words[hit.end].form == "eso")
        if at < len(self._words) and self._words[at].form in PUT_LAST_SURE and ends_with(at, self._words):
            return Judged("denied", "it is said to do so")
        return None

    def _fine(self, hit: Hit, clause: Clause) -> Judged | None:
        """Praise after or right before the function (“drains fine”, “good suction”)."""
        for a, b in self._marks.at("fine"):
            if not (clause.start <= a < clause.end) or (a >= hit.start and b <= hit.end):
                continue
            if hit.end <= a <= hit.end + SCOPE_WORDS or 0 <= hit.start - b <= 1:
                between = [m for n, m in self._negators if hit.end <= n and m <= a]
                if any(word.form in AND for m in between for word in self._words[m:a]):
                    continue  # "hielo cae | no hay fugas y enfría bien"
                if between:
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

    def _after(self, name: str, hit: Hit, clause: Clause, reach: int, *, apart: bool = True) -> bool:
        last = next((n for n in range(hit.end, clause.end) if self._words[n].brk and not apart), clause.end)
        return any(hit.end <= a <= hit.end + reach and a < last for a, _ in self._marks.at(name))

    def _negated_after(self, name: str, hit: Hit, clause: Clause, reach: int) -> bool:
        for a, _ in self._marks.at(name):
            if hit.end <= a <= hit.end + reach and a < clause.end:
                return any(hit.end <= n and m <= a for n, m in self._negators)
        return False

    def negated_before(self, hit: Hit, *, nominal: bool = False) -> bool:
        """Whether a negation stands right before *hit* (within three words of its clause); *nominal*: a "no" or "without"."""
        return self._negations.right_before(hit, nominal=nominal)
