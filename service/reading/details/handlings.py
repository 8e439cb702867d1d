"""
What customers did to a machine that only its outcome shows to be an attempt: “put cardboard under the leg, still loud”,
“le puse tapetes y ni así”. Verbs of handling say something only here; what else they tell stands in ``attempts``.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence

from service.reading.faults.polarity import Polarity
from service.reading.faults.undertaken import CLITICS, HELPERS, IT, SPILLED, is_thing, stretch_before, words_behind
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word, fold

HANDLINGS = ("tried_handling", "tried_handling_for_us", "tried_searching", "tried_idle", "tried_parts", "tried_sought")
"""The word lists of the rules that are put together here."""

Done = Callable[[Sequence[Word], int, Polarity], bool]
"""Whether the verb at a place of the words is told as done, by one of the house, against the fault."""

_REACH = 16
"""How many words behind what was done its outcome stands, at most."""
_NEAR = 4
_SAME = 10
"""So near to what is told anyhow, a further verb only goes on with it."""
_SENTENCES = 2
_BARE = frozenset(("nothing", "nope", "nada", "zilch", "nah", "no", "same", "igual", "tampoco", "nadita", "nop", "nel"))
"""Said by themselves behind what was done, they tell that it did not help."""
_OF_NO = frozenset(("good", "go", "help", "dice", "luck", "use", "better", "change", "joy", "mejora", "mejoro"))
"""“no good”, “no go” by themselves say so as well."""
_LINKS = frozenset(("and", "n", "but", "y", "pero", "still", "ni"))
_NO_OUTCOME = frozenset((
    "waiting", "waitin", "havent", "hasnt", "nobody", "noone", "under", "need", "want", "wondering", "thinking", "works",
    "working", "runs", "esperando", "nadie", "good", "fine", "ok", "cold", "new", "seco",
))  # fmt: skip
"""Behind “still” these tell of nothing that did not help."""
_IN_VAIN = ("not_fixed", "still")
_BREAKERS = frozenset(("breaker", "breakers", "gfci", "gfi"))
_PRESSED = frozenset(("pushed", "pressed", "hit", "punched", "popped", "poked", "flipped", "clicked"))
_NEW = frozenset(("new", "nuevo", "nueva", "nuevos", "nuevas"))
_AGENTS = frozenset((
    "i", "we", "ive", "weve", "she", "he", "and", "n", "then", "just", "also", "even", "already", "ya", "y", "pero", "yo", "lo",
    "la", "le", "les", "los", "las", "se", "tambien",
))  # fmt: skip
"""Before a verb: who did it, or that it goes on with what was done."""
_ONCE_MORE = frozenset(
    ("again", "empty", "twice", "nothing", "times", "veces", "vacio", "vacia", "sola", "solo", "otra")
)
"""“ran it again”, “ran it empty”: to try it, not to use it."""
_RUN = frozenset(("ran", "corri", "corrimos"))
_BOUGHT = frozenset(("bought", "compre", "compramos"))
_ANOTHER = frozenset(("new", "one", "another", "different", "otro", "otra", "nuevo", "nueva", "nuevos", "nuevas"))
"""What is bought against a fault; else it tells where the machine is from."""
_HALF = frozenset(("half", "heavy", "mitad", "peso"))
"""“took half the clothes out”: done for the balance."""
_NOT_OUTCOME = frozenset(("se", "sabemos", "quiero", "tengo", "tenemos", "puedo", "encuentro", "quisiera"))
_SENSED = frozenset(("olor", "gas", "huele", "humo", "quemado", "chispa", "chispas", "caliente", "lumbre"))
_SEEN = ("saw", "found")
_BUT = ("y", "pero")
_FIRST_PERSON = ("e", "i", "amos", "imos")
"""Spanish verbs of these endings say by themselves who did it: “calienta poquito cambié el disco y quedó igual”."""
_ENGLISH = frozenset(("drove", "tore", "broke", "wove", "shone"))
_WITH = frozenset(("with", "con", "w"))
_A_THING = frozenset(("a", "the", "some", "my", "another", "one", "two", "folded", "un", "una"))
_FIND = frozenset(
    ("find", "found", "see", "feel", "saw", "encontre", "encuentro", "encontramos", "halle", "hallo", "veo", "vi")
)
_THERE = frozenset(("there", "theres", "hay", "no"))
_NOTHING = frozenset(("nothing", "nada", "none"))
_ENDS = frozenset(("looked", "checked", "busque", "revise", "cheque", "chequee", "checamos", "looking"))
_TWICE = frozenset(("twice", "already", "too", "bien", "veces"))


class Handlings:
    """Finds what was tried by the rules' *lists* of handling, and by how it went."""

    def __init__(self, lists: Mapping[str, Collection[str]]) -> None:
        folded = {name: frozenset(fold(word) for word in lists.get(name, ())) for name in HANDLINGS}
        done = (*lists.get("tried_mending", ()), *lists.get("tried_cleaning", ()))
        self._of_itself = {fold(word) for word in done} - folded["tried_handling"]
        self._ours = folded["tried_handling"] | self._of_itself
        self._by_me = {form for form in self._ours if form.endswith(_FIRST_PERSON)} - _ENGLISH
        self._for_us = folded["tried_handling_for_us"]
        self._searching, self._sought = folded["tried_searching"], folded["tried_sought"]
        self._filter = frozenset(fold(word) for word in (*lists.get("tried_filter", ()), "trap"))
        self._vent = frozenset(fold(word) for word in lists.get("tried_vent", ()))
        self._idle, self._parts = folded["tried_idle"], folded["tried_parts"]
        self._others = frozenset(fold(word) for word in lists.get("tried_by_others", ()))

    def found(
        self,
        words: Sequence[Word],
        hits: Sequence[Hit],
        polarity: Polarity,
        done: Done,
        taken: Sequence[tuple[int, int, str]],
        *,
        danger: bool,
    ) -> Iterator[tuple[int, int, str]]:
        """
        The values of ``tried`` that are told by their outcome, where no other attempt is *taken* to be told already. Beside a
        *danger* that is still there nothing was tried against the fault, but what plainly did not help was.
        """
        ends = _outcomes(words, hits, _IN_VAIN[: 2 - danger])
        for at, word in enumerate(words):
            code, end = "", at + 1
            if word.form in _PRESSED and self._of_a_breaker(words, at) and done(words, at, polarity):
                code = "reset_breaker"
            elif word.form in self._searching and not danger and self._in_vain(words, at) and done(words, at, polarity):
                code = "other"
            elif ends and self._handled(words, at, polarity, done):
                outcome = _next(ends, words, at)
                code, end = (self._code(words, at), outcome) if outcome else ("", end)
            elif ends and self._is_new(words, at) and _next(ends, words, at):
                code = "other"
            same = 0 if word.form in self._of_itself else _SAME
            if code and not any(start < end and at - same < last for start, last, _ in taken):
                yield at, at + 1, code

    def _handled(self, words: Sequence[Word], at: int, polarity: Polarity, done: Done) -> bool:
        """Whether something was done to the machine at *at*, and no load put in, no button of its use pressed."""
        form = words[at].form
        if form in self._for_us:
            around = {word.form for word in (*words[max(0, at - 6) : at], *words_behind(words, at, _NEAR))}
            if not (HELPERS & around and {word.form for word in words[max(0, at - 1) : at]} & CLITICS):
                return False
        elif form not in self._ours or is_thing(words, at) or not (_by_us(words, at) or form in self._by_me):
            return False
        if SPILLED & {word.form for word in words[max(0, at - _REACH) : at]}:
            return False
        near = [word.form for word in words_behind(words, at, _NEAR)] or [""]
        if (
            near[:1] == ["off"]
            or (form == "stuck" and near[0] not in _A_THING)
            or (form in _RUN and _ONCE_MORE.isdisjoint(near))
        ):
            return False
        if form in _BOUGHT and _ANOTHER.isdisjoint(near):
            return False
        idle = self._idle.intersection(_done_to(near)) and _HALF.isdisjoint(near)
        return near != [""] and not idle and done(words, at, polarity)

    def _code(self, words: Sequence[Word], at: int) -> str:
        """What was done at *at*: a trap or a vent taken off was cleaned."""
        near = {word.form for word in words_behind(words, at, _NEAR)}
        return "cleaned_filter" if self._filter & near else "cleaned_vent" if self._vent & near else "other"

    def _is_new(self, words: Sequence[Word], at: int) -> bool:
        """“new hoses, new valve, washer still wont fill”, “bulb is new”: a part of the owner's own, no repairer's."""
        if words[at].form not in _NEW:
            return False
        near = [*stretch_before(words, at)[-2:], *words_behind(words, at, 1)]
        if {word.form for word in words[max(0, at - 1) : at + 3]} & {"or", "o", "no"}:
            return False
        about = {word.form for word in words[max(0, at - _REACH) : at + _NEAR]}
        return not self._parts.isdisjoint(word.form for word in near) and self._others.isdisjoint(about)

    def _of_a_breaker(self, words: Sequence[Word], at: int) -> bool:
        """“GFI in the cabinet above it, pushed it”."""
        behind = words_behind(words, at, 1)
        before = {word.form for word in words[max(0, at - 8) : at]}
        return bool(behind) and behind[0].form in IT and not _BREAKERS.isdisjoint(before)

    def _in_vain(self, words: Sequence[Word], at: int) -> bool:
        """“felt around in the drum and cant find a thing”, “theres no spoon i looked”: sought, and nothing there."""
        around = {word.form for word in words[max(0, at - 8) : at + _REACH]}
        if self._sought & around:
            return False
        behind = words_behind(words, at, 10)
        there = {word.form for word in words[max(0, at - 8) : at]}
        for place, word in enumerate(behind):
            before = behind[max(0, place - 2) : place]
            if word.form in _FIND and any(w.en == "not" or w.form in ("no", "never") for w in before):
                return True
            if word.form in _NOTHING and place and behind[place - 1].form not in ("or", "ni", "o"):
                return True
        closes = not behind or behind[0].brk == 2 or behind[0].form in _TWICE
        denied = bool(there & _NOTHING) or (
            bool(there & _THERE) and any(w.en == "not" or w.form == "no" for w in words[max(0, at - 8) : at])
        )
        return words[at].form in _ENDS and closes and denied


def _done_to(near: Sequence[str]) -> Sequence[str]:
    """What it was done to: not what it was done with, “la lavé con agua tibia”."""
    return near[: next((place for place, form in enumerate(near) if form in _WITH), len(near))]


def _by_us(words: Sequence[Word], at: int) -> bool:
    """Whether somebody is told to have done it, or nobody is: “took a sock out”, not “the handle snapped off”."""
    before = [word.form for word in words[max(0, at - 6) : at]]
    if "your" in before[-_NEAR:]:
        return False
    begins = at == 0 or words[at].brk > 0
    return begins or not _AGENTS.isdisjoint(before[-3:]) or not HELPERS.isdisjoint(before[-3:])


def _outcomes(words: Sequence[Word], hits: Sequence[Hit], codes: Sequence[str]) -> list[tuple[int, int]]:
    """Where it is said that something did not help, by wordings of *codes* or by a word alone."""
    told = [hit for hit in hits if hit.payload.code in codes]
    innocent = [hit for hit in told if hit.payload.role == "innocent"]
    found = [
        (hit.start, hit.end)
        for hit in told
        if hit.payload.role == "sign"
        and not any(i.start <= hit.start and hit.end <= i.end and i.payload.code == hit.payload.code for i in innocent)
        and _NO_OUTCOME.isdisjoint(word.form for word in words[hit.end : hit.end + 1])
    ]
    for at, word in enumerate(words):
        ends = at + 1 == len(words) or words[at + 1].brk > 0
        begins = word.brk > 0 or (at > 0 and words[at - 1].form in _LINKS)
        if word.form in _BARE and (begins or word.form == "tampoco") and (ends or word.form in ("tampoco", "nope")):
            found.append((at, at + 1))
        if word.form in _BUT and _does_not(words, at):
            found.append((at, at + 3))
        if word.form in ("remains", "cero") or (word.form in _SEEN and _follows(words, at, ("nothing", "none"))):
            found.append((at, at + 2))
        if word.form == "no" and begins and _ends_with(words, at + 1, _OF_NO):
            found.append((at, at + 2))
        if word.form == "todos" and _follows(words, at, ("modos", "maneras")):
            found.append((at, at + 2))
        if word.form == "ni" and at + 1 < len(words) and words[at + 1].form in ("asi", "con"):
            found.append((at, at + 2))
    return sorted(found)


def _ends_with(words: Sequence[Word], at: int, forms: Collection[str]) -> bool:
    """Whether one of *forms* stands at *at*, and its stretch ends with it: “no good.”, not “no good at”."""
    return at < len(words) and words[at].form in forms and (at + 1 == len(words) or words[at + 1].brk > 0)


def _follows(words: Sequence[Word], at: int, forms: Collection[str]) -> bool:
    """Whether one of *forms* stands right behind *at*."""
    return at + 1 < len(words) and words[at + 1].form in forms


def _does_not(words: Sequence[Word], at: int) -> bool:
    """“y no prendió”, “pero ni se movió”: not “y no sé”, “y no huele a gas”."""
    behind = words_behind(words, at, _NEAR + 2)
    if len(behind) < 2 or behind[0].form not in ("no", "ni"):
        return False
    own = behind[1].form in _NOT_OUTCOME and not (behind[1].form == "se" and not behind[1].accented)
    return not own and _SENSED.isdisjoint(word.form for word in behind)


def _next(ends: Sequence[tuple[int, int]], words: Sequence[Word], at: int) -> int | None:
    """Where the first outcome behind *at* ends, if it stands near."""
    for start, end in ends:
        if end > at + 2 and start > at:
            if start - at > _REACH or sum(word.brk == 2 for word in words[at + 1 : start + 1]) > _SENTENCES:
                return None
            return end
    return None
