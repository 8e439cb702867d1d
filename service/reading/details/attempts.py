"""
What customers did to a machine before they wrote: a verb of troubleshooting told as done, and the thing it was done to.
Complete wordings stand in the rules of talk; here verbs and things are put together that no author has written side by side.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence

from service.reading.details.parts_tried import (
    NEW_THINGS,
    OF_MACHINES,
    OF_THING,
    cleans_the_trap,
    filter_taken_out,
    kept_so,
    lint_of,
    lint_trap,
    only_named,
    put_in_place,
    tests_the_outlet,
)
from service.reading.faults.polarity import Polarity
from service.reading.faults.undertaken import (
    AND,
    BETTER,
    CLITICS,
    EVENT,
    HELPERS,
    IT,
    LINT,
    LOST_POWER,
    NEWER,
    NOT_TRYING,
    NOW,
    OF_HER,
    PLANNED,
    PULLED,
    SELF,
    SPILLED,
    STATE,
    STILL,
    TRYING,
    denied_before,
    for_safety,
    for_the_storm,
    found_so,
    is_thing,
    next_forms,
    of_an_alarm,
    of_comparing,
    of_theirs,
    said_before,
    set_right,
    stretch_before,
    surely_told,
    switched_off,
    words_behind,
)
from service.reading.words.normalising import NEGATIONS, Word, fold
from service.reading.words.stemming import stem_en, stem_es

VERBS = ("cleaning", "looking", "changing", "switching", "unplugging", "mending", "using")
THINGS = ("filter", "hose", "vent", "breaker", "plug", "disposal", "remedies", "things", "nothing")
LISTS = tuple(f"tried_{name}" for name in (*VERBS, *THINGS, "by_others"))
"""The word lists of the rules that are put together here."""

_POWER = frozenset(("power", "breaker", "breakers", "electricity", "juice"))
_AT_HOME = HELPERS | {"ella", "el"}
_FORWARD, _BACK, _FAR = 6, 4, 16


class Attempts:
    """Finds attempts by the rules' *lists* of verbs and things."""

    def __init__(self, lists: Mapping[str, Collection[str]]) -> None:
        folded = {name[6:]: [fold(word) for word in lists.get(name, ())] for name in LISTS}
        self._verbs = {word: name for name in reversed(VERBS) for word in folded[name]}
        regular = ((word, name) for name in reversed(VERBS[:-1]) for word in folded[name])
        self._stems = {stem(word): name for word, name in regular for stem in (stem_en, stem_es)}
        self._things = {word: name for name in reversed(THINGS) for word in folded[name]}
        self._others = frozenset(folded["by_others"])

    def found(
        self, words: Sequence[Word], polarity: Polarity, named: Collection[str], *, danger: bool, wary: bool
    ) -> Iterator[tuple[int, int, str]]:
        """
        The values of the fact ``tried`` that *words* tell, each with where its verb stands.

        named: the machines spoken of. danger: a hazard is told; wary: or denied.
        """
        for at, word in enumerate(words):
            if word.form in TRYING:
                if self.was_done(words, at, polarity) and not danger:
                    yield from ((at, at + 1, code) for code in self._tried(words, at, named))
                continue
            verb = self._verbs.get(word.form)
            if verb is None or is_thing(words, at) or not self.was_done(words, at, polarity):
                continue
            if word.form == "killed" and _POWER.isdisjoint(next_forms(words, at)):
                continue
            if verb == "unplugging":
                state = word.form.endswith(("d", "do")) and STATE & {w.form for w in stretch_before(words, at)[-3:]}
                if not state and not for_safety(words, at, danger=wary):
                    yield at, at + 1, "power_cycled"
                continue
            if not danger or verb == "cleaning":
                told = [*self._codes(words, at, verb, named)]
                codes = ["cleaned_filter"] if verb == "cleaning" and cleans_the_trap(words, at, named) else told
                yield from ((at, at + 1, code) for code in surely_told(codes, verb, danger=danger))

    def tells(self, words: Sequence[Word], start: int, end: int, polarity: Polarity, *, wary: bool) -> bool:
        """Whether a wording from *start* to *end* tells an attempt: none that dates the fault, or was done to be safe."""
        for at in range(start, end):
            word = words[at]
            verb = self._verbs.get(word.form)
            if (verb is not None and of_an_alarm(words, at)) or (word.form == "plugged" and for_the_storm(words)):
                return False
            if word.form in PULLED and (for_safety(words, at, danger=wary) or (at == start and found_so(words, at))):
                return False
            if verb == "cleaning" and SPILLED & {w.form for w in words[max(0, at - _FAR) : at]} and end - at < 2:
                return False
            if verb is not None:
                return self.was_done(words, at, polarity, start) or any(
                    w.form in self._others for w in words[start:end]
                )
            if (word.en in self._stems and word.form == word.en) or word.es in self._stems:
                return not only_named(words, at) and self._dates_nothing(words, at)
        return True

    def was_done(self, words: Sequence[Word], at: int, polarity: Polarity, told: int | None = None) -> bool:
        """Whether the verb at *at*, *told* from there on, is told as done, by somebody of the house, for the fault's sake."""
        clause = polarity.clause(at if told is None else told)
        before, form = said_before(words, at), words[at].form
        closely = {word.form for word in before[-3:]}
        others = clause.others and not HELPERS & closely
        if clause.if_ or clause.past or others or clause.asked or not self._dates_nothing(words, at):
            return False
        if self._others & {word.form for word in before[-4:]} and not {"i", "we", "ya"} & closely:
            return False
        if denied_before(before) or of_theirs(words, at) or kept_so(words, at):
            return False
        if closely & PLANNED and not closely & SELF - {"he"}:
            return False
        if form in OF_HER:
            return self._by_her(words, at)
        return not ("que" in closely and "ya" not in closely and form.endswith("e"))

    def _by_her(self, words: Sequence[Word], at: int) -> bool:
        """“limpio”, “cambio”: she or he did, with “lo” or “le” before it and no repairer about."""
        around = {word.form for word in (*words[max(0, at - 9) : at], *words_behind(words, at, 4))}
        before = [word.form for word in words[max(0, at - 2) : at]]
        by_one = bool(before) and before[-1] in CLITICS and before != ["se", "le"]
        return (by_one or bool(_AT_HOME & {*before})) and not self._others & around

    def _dates_nothing(self, words: Sequence[Word], at: int) -> bool:
        """Not “since we changed the filter”; but “after i cleaned it still leaks” tells what was tried."""
        forms = {word.form for word in said_before(words, at, besides=2)}
        event = EVENT & forms - of_comparing(words, at)
        if not event:
            return not self._is_the_cause(words, at)
        still = STILL & {word.form for word in words[at:]}
        better = BETTER & {word.form for word in words[max(0, at - 7) : at]}
        return "even" in forms or ("after" in event and bool(still or better))

    def _is_the_cause(self, words: Sequence[Word], at: int) -> bool:
        """“changed the filter yesterday and now no water comes”: that brought the fault, it was not done against it."""
        changed = self._verbs.get(words[at].form) == "changing"
        forms = [word.form for word in words[at + 1 : at + 10]]
        now = [place for place, form in enumerate(forms) if form in NOW]
        return changed and bool(now) and not STILL & {*forms[now[0] :]}

    def _tried(self, words: Sequence[Word], at: int, named: Collection[str]) -> Iterator[str]:
        """What follows "tried": a thing, or another verb in base form."""
        behind = words_behind(words, at, _FORWARD)
        to = bool(behind) and behind[0].form in ("to", "de")
        place = at + 1 + to
        if tests_the_outlet(behind):
            yield "checked_plug"
            return
        if place - at > len(behind):
            return
        verb = self._stems.get(words[place].en) or self._stems.get(words[place].es)
        if verb == "unplugging":
            yield "power_cycled"
        elif verb is not None and words[place].form not in ("run", "a", "the"):
            yield from self._codes(words, place, verb, named)
        elif not to and words[place].form not in NOT_TRYING:
            yield from [*self._codes(words, at, "looking", named)] or ["other"]

    def _codes(self, words: Sequence[Word], at: int, verb: str, named: Collection[str]) -> Iterator[str]:
        """What doing *verb* at the place *at* was, by the things it was done to."""
        behind = words_behind(words, at, _FORWARD)
        forms = [word.form for word in behind]
        things = [*self._objects(behind)]
        alarm = of_an_alarm(words, at) and not OF_MACHINES.intersection(things)
        if alarm or forms[:2] == ["it", "up"] or forms[:1] == ["up"]:
            return
        if {"vent", "filter"} <= {*things} and LINT.intersection(forms) and AND.isdisjoint(forms):
            things.remove("filter")
        if forms[:1] and forms[0] in IT and "nothing" in things:
            things = []
        newer = bool(NEWER.intersection(forms[:4]))
        mine = bool(SELF & {word.form for word in stretch_before(words, at)[-3:]})
        it = bool(forms and forms[0] in IT) or any(w.form in CLITICS for w in stretch_before(words, at)[-1:])
        it = it or (verb == "switching" and "one" in forms[:3])
        if not things and not it:
            things = [*self._named_before(words, at)]
        if not things and it and (verb in ("cleaning", "looking", "switching") or words[at].form == "ran"):
            things = [*self._spoken_of(words, at, verb)]
        for thing in things:
            code = self._value(words, at, verb, thing, newer=newer)
            if code:
                yield code
        if things:
            return
        form = words[at].form
        if verb == "switching" and form.startswith(("reset", "reinici", "cycled")):
            tripped = any(word.form in LOST_POWER for word in words)
            yield "other" if "disposal" in named else "reset_breaker" if tripped else "power_cycled"
        elif verb == "cleaning" and SPILLED & {word.form for word in words[max(0, at - _FAR) : at]}:
            return
        elif (
            verb == "mending" and (it or mine or (forms and forms[0] in ("the", "my", "all", "la", "el", "los", "las")))
        ) or (verb in ("cleaning", "changing") and it and (mine or verb == "changing" or not EVENT & {*forms})):
            yield "other"

    def _value(self, words: Sequence[Word], at: int, verb: str, thing: str, *, newer: bool) -> str | None:
        form = words[at].form
        if thing == "nothing" or (form == "doing" and next_forms(words, at)[:1] != ["the"]):
            return None
        if verb == "changing":
            return put_in_place(words, at, thing)
        if verb == "using" and newer and thing not in ("remedies", "disposal", "plug"):
            return NEW_THINGS.get(thing, "other")
        if thing == "disposal":
            return "ran_disposal" if verb == "using" and form in ("ran", "run", "corri", "prendi") else None
        if verb == "switching":
            if thing == "breaker":
                return None if switched_off(words, at) else "reset_breaker"
            if thing == "hose" and form.startswith(("mov", "sub", "levant")):
                return "checked_hose"
            return "other" if set_right(words, at, thing) else None
        if verb == "using" and thing in ("hose", "vent", "filter") and LINT.intersection(next_forms(words, at)):
            return "cleaned_filter" if thing == "filter" else "cleaned_vent"
        if verb == "using":
            if thing == "remedies" or (thing == "things" and (newer or set_right(words, at, thing))):
                return "other"
            did = (thing == "filter" and filter_taken_out(words, at)) or (
                form in ("did", "done", "doing", "hice", "hicimos") and thing != "things"
            )
            return OF_THING[thing] if did or (thing in ("hose", "plug") and form.startswith(("mov", "push"))) else None
        if verb == "looking" and thing == "breaker":
            return "reset_breaker"
        return None if (verb, thing) == ("cleaning", "plug") else OF_THING[thing]

    def _objects(self, behind: Sequence[Word]) -> Iterator[str]:
        """The things a verb takes: the first within reach, and those that a list goes on with."""
        far, listed = 0, True
        for place, word in enumerate(behind):
            if place and (word.form in self._verbs or word.form in NEGATIONS) and word.form not in self._things:
                return
            listed = listed or word.form in AND or word.brk == 1
            thing = self._things.get(word.form)
            if thing == "hose" and {"with", "con"} & {w.form for w in behind[max(0, place - 2) : place]}:
                return  # "con la manguerita": what it was rinsed with
            after = behind[place + 1] if place + 1 < len(behind) else None
            if thing is None or lint_of(word, after):
                far += thing is None
                if far > 5:
                    return
                continue
            compound = after is not None and not after.brk and self._things.get(after.form) not in (None, "nothing")
            if compound and thing != "vent" and not lint_trap(word, after):
                continue  # "drain hose filter": the last noun is what it is; a vent's hose is a vent
            if listed:
                yield "things" if thing == "plug" and behind[place - 1].form in ("drain", "sink") else thing
            if thing == "nothing":
                return
            far, listed = 2, False

    def _named_before(self, words: Sequence[Word], at: int) -> Iterator[str]:
        """“plug checked”, “the hose i checked”: the thing stands before what was done to it."""
        for word in reversed(stretch_before(words, at)[-_BACK:]):
            if word.form in self._verbs:
                return
            thing = self._things.get(word.form)
            if thing is not None:
                yield thing
                return

    def _spoken_of(self, words: Sequence[Word], at: int, verb: str) -> Iterator[str]:
        """“it is not the breaker. i reset that twice”: the thing last spoken of."""
        for word in reversed(words[max(0, at - _FAR) : at]):
            thing = self._things.get(word.form)
            only = {"switching": "breaker", "using": "disposal"}.get(verb, thing)
            if thing in OF_THING and thing == only and thing != "remedies":
                yield thing
                return
