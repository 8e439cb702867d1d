"""What a Reading says of one machine into that machine's ticket. Later words win over earlier ones."""

from __future__ import annotations

from collections.abc import Mapping

from service.conversation.matters import bare_words, named, words_before
from service.conversation.sounds import beside_the_fault
from service.conversation.state import TicketState
from service.conversation.underway import Turn
from service.reading.model import Reading
from service.reading.words.normalising import fold
from service.rulebook.schema.seen import Observation

MACHINE_FACTS = ("brand", "model", "serial", "age_years", "fuel", "variant", "code", "since", "pattern", "payer")
ANY = "any"
"""Stands for whichever machine a finding was put down to: an answer is about the machine that was asked about."""
GATHERED = ("after", "tried")
"""Facts that add up; the others are replaced."""
WORDS_KEPT, WORDS_LONG = 8, 300
_NEAR = frozenset((
    "near", "behind", "beside", "across", "next", "by", "past", "opposite", "enfrente", "frente", "atras", "detras", "cerca",
    "lado", "junto", "por", "pasando", "antes", "contra", "esquina", "corner", "block", "cuadra", "cuadras",
))  # fmt: skip
"""Before a restaurant or a church these make it a landmark, not the place where the machine stands."""
_NEAR_WORDS = 4


def merge(turn: Turn, key: str, reading: Reading, appliance: str) -> None:
    """Add what *reading* says of *appliance* (or of no machine in particular) to the ticket *key*."""
    ticket = turn.the(key)
    _symptoms(turn, ticket, reading, appliance)
    _observations(turn, turn.the(key), reading, appliance)
    _facts(turn, turn.the(key), reading)
    _theories(turn, turn.the(key), reading, appliance)
    _urgency(turn, turn.the(key), reading)


def keep_words(turn: Turn, key: str, texts: tuple[str, ...]) -> None:
    """Keep the customer's own sentences: the first and the latest matter most, so the middle goes first."""
    ticket = turn.the(key)
    new = [t.strip()[:WORDS_LONG] for t in texts if len(t.strip()) > 3 and t.strip()[:WORDS_LONG] not in ticket.words]
    words = [*ticket.words, *new]
    if len(words) > WORDS_KEPT:
        words = [*words[:2], *words[-(WORDS_KEPT - 2) :]]
    turn.change(key, words=tuple(words))


def said_symptom(turn: Turn, key: str, code: str, said: bool, *, hedged: bool = False) -> None:
    """Note one symptom as said or denied; a more special one takes the place of those it stands over."""
    ticket = turn.the(key)
    symptoms = dict(ticket.symptoms)
    symptoms[code] = said
    rules = turn.rulebook.appliances.get(ticket.appliance)
    if said and rules and code in rules.symptoms:
        for general in rules.symptoms[code].over:
            if symptoms.get(general):
                del symptoms[general]
    one_of = tuple(g for g in ticket.one_of if not (said and code in g))
    if not said:
        one_of = _narrowed(one_of, code)
    marks = set(ticket.hedged) - {code} | ({code} if hedged else set())
    turn.change(key, symptoms=symptoms, one_of=one_of, hedged=tuple(sorted(marks)))
    if said and not ticket.symptoms.get(code):
        turn.learned.add("symptom")
        turn.new_symptoms.append((key, code))
    elif not said and ticket.symptoms.get(code) is not False:
        turn.learned.add("denied")


def _narrowed(groups: tuple[tuple[str, ...], ...], denied: str) -> tuple[tuple[str, ...], ...]:
    """The groups without a symptom that is denied."""
    left = (tuple(c for c in g if c != denied) for g in groups)
    return tuple(g for g in left if g)


def _symptoms(turn: Turn, ticket: TicketState, reading: Reading, appliance: str) -> None:
    rules = turn.rulebook.appliances.get(ticket.appliance)
    for found in reading.denied:
        if _belongs(found.appliance, appliance) and found.code != "vague":
            said_symptom(turn, ticket.key, found.code, said=False)
    for found in reading.symptoms:
        if not _belongs(found.appliance, appliance) or found.code == "vague":
            continue
        if _is_address(found.words, reading):
            turn.because("heard", f'"{found.words}" belongs to how to find or get in, not to the machine.', found.rule)
            continue
        if turn.state.asked is not None and _is_one_word_cut(turn, found.words, reading):
            turn.because("heard", f'"{found.words}" is one word, and no complaint.', found.rule)
            continue
        if _is_the_answer(turn, ticket, found.words, reading):
            turn.because(
                "heard", f'"{found.words}" answers what was asked, and is no complaint of its own.', found.rule
            )
            continue
        if beside_the_fault(found, ticket, reading, turn.state.asked):
            turn.learned.add("observation")
            turn.because("heard", f'"{found.words}" is what it sounds like beside its fault, no new noise.', found.rule)
            continue
        if rules is not None and found.code not in rules.symptoms:
            turn.because("heard", f"The rules for the {appliance} have no {found.code}; kept in their words only.")
            continue
        said_symptom(turn, ticket.key, found.code, said=True)


def _is_the_answer(turn: Turn, ticket: TicketState, words: str, reading: Reading) -> bool:
    """Whether the words of a sign are those of the choice that was taken: “un zumbido” to “what do you hear?”."""
    asked, given = turn.state.asked, reading.answer
    if (
        asked is None
        or asked.kind != "observation"
        or asked.ticket != ticket.key
        or given is None
        or given.index is None
    ):
        return False
    if given.kind != "choice" or given.index >= len(asked.choices):
        return False
    if any(seen.id == asked.code and words.lower() in seen.words.lower() for seen in reading.observations):
        return True
    return set(bare_words(words)) <= set(bare_words(asked.choices[given.index][1]))


def _is_one_word_cut(turn: Turn, words: str, reading: Reading) -> bool:
    """Whether all they wrote is one word that was only read by cutting it: a maker's name tells of no pool."""
    alone = reading.text.strip().strip(".!?").lower()
    return len(alone.split()) == 1 and words.lower() == alone and turn.reader.is_cut(fold(alone))


def _is_address(words: str, reading: Reading) -> bool:
    """Whether the words stand in what was told of the way there: the code of a gate is no error code."""
    for name in ("access", "address", "name", "email"):
        value = reading.facts.get(name)
        told = value if isinstance(value, str) else " ".join(map(str, value)) if isinstance(value, tuple | list) else ""
        if words.lower() in told.lower():
            return True
    return False


def _belongs(found: str, appliance: str) -> bool:
    return appliance == ANY or found in (appliance, "unknown")


def _observations(turn: Turn, ticket: TicketState, reading: Reading, appliance: str) -> None:
    rules = turn.rulebook.appliances.get(ticket.appliance)
    for seen in reading.observations:
        if not _belongs(seen.appliance, appliance):
            continue
        known = rules.observations.get(seen.id) if rules else None
        if known is not None and len(known.answers) > 0 and ticket.symptoms and not fits(ticket, known):
            continue  # "as it spins" is when it leaks of a machine that leaks, and when it is loud of one that is loud
        observe(turn, ticket.key, seen.id, seen.value, hedged=seen.hedged)


def fits(ticket: TicketState, known: Observation) -> bool:
    """Whether the observation *known* is one of a complaint like *ticket*: with a symptom it goes with, and still open."""
    said = {code for code, so in ticket.symptoms.items() if so} | {code for group in ticket.one_of for code in group}
    told = said | {f"{code}={value}" for code, value in ticket.observations.items()}
    return (not known.when or bool(said & {*known.when})) and not told & {*known.unless}


def observe(turn: Turn, key: str, id: str, value: str, *, hedged: bool = False) -> None:
    """Note the answer to one observation; what is known is not asked again."""
    ticket = turn.the(key)
    marks = set(ticket.hedged) - {id} | ({id} if hedged else set())
    observations = {**ticket.observations, id: value}
    turn.change(key, observations=observations, hedged=tuple(sorted(marks)))
    if ticket.observations.get(id) != value:
        turn.learned.add("observation")


def _without_outdated(turn: Turn, ticket: TicketState, facts: Mapping[str, object], reading: Reading) -> dict[str, str]:
    """The observations but those that a fact of *facts* now tells anew: “induction” is over where it turns out to be gas."""
    rules = turn.rulebook.appliances.get(ticket.appliance)
    told = {seen.id for seen in reading.observations}
    known = {} if rules is None else rules.observations
    anew = {name for name, value in facts.items() if ticket.facts.get(name, value) != value}
    return {
        id: value
        for id, value in ticket.observations.items()
        if id in told or id not in known or not anew & {way.fact for way in known[id].from_facts}
    }


def _facts(turn: Turn, ticket: TicketState, reading: Reading) -> None:
    facts = dict(ticket.facts)
    for name in MACHINE_FACTS:
        value = reading.facts.get(name)
        if isinstance(value, str | int | float) and value != "":
            facts[name] = float(value) if isinstance(value, int | float) else value
    business = named(turn.rulebook, "business", reading.text)
    home = named(turn.rulebook, "at_home", reading.text) is not None
    if business is not None and not _NEAR & {*words_before(reading.text, business, _NEAR_WORDS)}:
        facts["use"] = "unclear" if home else "commercial"
    elif home and "use" in facts:
        facts["use"] = "home"
    for name in GATHERED if "fixed" not in reading.intents else ("after",):  # what mended it was not tried in vain
        facts.update(_gathered(name, facts, reading.facts))
    if facts != ticket.facts:
        turn.learned.add("fact")
        turn.change(ticket.key, facts=facts, observations=_without_outdated(turn, ticket, facts, reading))
    _checks_done(turn, turn.the(ticket.key), reading)


def _gathered(name: str, held: Mapping[str, object], told: Mapping[str, object]) -> dict[str, tuple[str, ...]]:
    value = told.get(name)
    new = (value,) if isinstance(value, str) else value
    if not isinstance(new, tuple | list) or not new:
        return {}
    before = held.get(name)
    kept = before if isinstance(before, tuple) else ()
    return {name: tuple(dict.fromkeys([*kept, *map(str, new)]))}


def _checks_done(turn: Turn, ticket: TicketState, reading: Reading) -> None:
    """A check that was done before we asked, to no avail, is a check done: it is not offered."""
    rules = turn.rulebook.appliances.get(ticket.appliance)
    tried = ticket.facts.get("tried")
    if rules is None or not isinstance(tried, tuple) or "fixed" in reading.intents:
        return
    done = {
        c.id: "not_fixed"
        for c in rules.checks.values()
        if set(c.done_if_tried) & set(tried) and c.id not in ticket.checks
    }
    if done:
        turn.change(ticket.key, checks={**ticket.checks, **done})
        words = f"Done already, so not offered: {', '.join(sorted(done))}."
        turn.because("ruled_out", words, checks=sorted(done))


def _theories(turn: Turn, ticket: TicketState, reading: Reading, appliance: str) -> None:
    told = [t for t in reading.theories if _belongs(t.appliance, appliance)]
    if not told:
        return
    causes = tuple(dict.fromkeys([*ticket.theories, *(t.cause for t in told if t.cause)]))
    words = tuple(dict.fromkeys([*ticket.theory_words, *(t.words[:120] for t in told)]))[-4:]
    if words != ticket.theory_words:
        turn.learned.add("theory")
    turn.change(ticket.key, theories=causes, theory_words=words)


def _urgency(turn: Turn, ticket: TicketState, reading: Reading) -> None:
    new = tuple(dict.fromkeys([*ticket.urgency, *reading.urgency]))
    if new != ticket.urgency:
        turn.learned.add("urgency")
        turn.change(ticket.key, urgency=new)
