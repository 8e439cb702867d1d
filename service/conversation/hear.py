"""A Reading into the state: which ticket each thing belongs to, whether a new one is opened, who writes and from where."""

from __future__ import annotations

from datetime import timedelta
from zoneinfo import ZoneInfo

from service.conversation import halves, passing, reasons, taken_up
from service.conversation.answers import another_matter
from service.conversation.merge import ANY, merge
from service.conversation.names_told import is_their_name, name_of
from service.conversation.state import Contact, State, TicketState, Wished
from service.conversation.underway import Turn
from service.reading.model import Reading, Wish

UNKNOWN = "unknown"
COMPLAINS = frozenset({"report_problem", "book", "not_fixed", "ask_help"})
"""Intents that stand for a complaint even when no symptom is named."""
SAME_MACHINE = ("brand", "model", "serial", "age_years", "fuel", "variant")
"""Facts that stay true of a machine from one complaint to the next."""


def hear(turn: Turn, reading: Reading) -> None:
    """Take over all that *reading* says into the turn's state and give the reasons."""
    reasons.heard(turn, reading)
    if reading.denied_hazards:
        turn.learned.add("no_danger")
    taken_up.take(turn, reading)
    _contact(turn, reading)
    for key, appliance in _targets(turn, reading):
        before, held = reasons.belief_of(turn, turn.the(key)), turn.the(key).symptoms
        merge(turn, key, reading, appliance)
        halves.as_one(turn, key, held, reading)
        reasons.believed(turn, turn.the(key), before)
    _wish(turn, reading)


def _targets(turn: Turn, reading: Reading) -> list[tuple[str, str]]:
    """The tickets this reading speaks of, made where needed, with the appliance code its findings go by."""
    named = [a for a in reading.appliances if a != UNKNOWN]
    focus = turn.state.in_focus if turn.state.in_focus and turn.state.in_focus.open else None
    if _meant_the_last(turn, reading, named, focus):
        return [(turn.state.focus or "", ANY)]
    elsewhere = {t.appliance for t in turn.open_tickets} - {focus.appliance if focus else None}
    instead = len(named) == 1 and named[0] not in elsewhere
    if focus and instead and named[0] != focus.appliance and _takes_back(reading, focus):
        rename(turn, focus, named[0])
    elif focus and _only_answers(turn, reading, focus):
        return [(focus.key, ANY)]
    targets = [(key, a) for a in named if (key := _ticket_for(turn, reading, a)) is not None]
    if targets:
        if focus is None or not focus.open:
            turn.put(focus=targets[0][0])
        return targets
    if focus is not None:
        return [(focus.key, focus.appliance)]
    before = passing.same_as_before(turn, reading) or passing.not_settled(turn, reading)
    if not named and before is not None:
        key = open_ticket(turn, before.appliance)
        turn.change(key, symptoms={code: True for code, said in before.symptoms.items() if said})
        return [(key, before.appliance)]
    if not named and (_complains(reading) or _says_when(turn, reading)):
        last = turn.state.tickets[-1] if turn.state.tickets else None
        again = last.appliance if last and _signs_of(reading, last.appliance) else UNKNOWN
        return [(open_ticket(turn, again), again)]
    return []


def _meant_the_last(turn: Turn, reading: Reading, named: list[str], focus: TicketState | None) -> bool:
    """Whether one text named a machine and took it back for another ("dishwasher... sorry, I meant the washer")."""
    if not reading.corrects or len(named) != 2 or (focus is not None and focus.appliance not in (UNKNOWN, named[0])):
        return False
    if focus is None:
        turn.put(focus=open_ticket(turn, named[1]))
        turn.because("heard", f"They said {named[0]} and took it back: the {named[1]} is meant.")
    else:
        rename(turn, focus, named[1])
    return True


def _only_answers(turn: Turn, reading: Reading, focus: TicketState) -> bool:
    """Whether the text answers what was asked of the machine in focus and complains of no other: all is about that one."""
    asked = turn.state.asked
    if asked is None or asked.ticket != focus.key or asked.kind == "appliance" or focus.appliance == UNKNOWN:
        return False
    others = {found.appliance for found in reading.symptoms} - {focus.appliance, UNKNOWN}
    if others & {*reading.appliances} and (focus.appliance in reading.appliances or "cancel" in reading.intents):
        return False
    return reading.answer is not None and "report_problem" not in reading.intents and not reading.corrects


def _ticket_for(turn: Turn, reading: Reading, appliance: str) -> str | None:
    """The open ticket of *appliance*, or a new one if the reading complains of it; None for a mere mention."""
    standing = next((t for t in turn.open_tickets if t.appliance == appliance), None)
    if standing:
        return standing.key
    focus = turn.state.in_focus
    if focus and focus.open and focus.appliance == UNKNOWN:
        rename(turn, focus, appliance)
        return focus.key
    complained = bool(_signs_of(reading, appliance)) or any(s.appliance == appliance for s in reading.observations)
    asked_for = turn.state.asked is not None and turn.state.asked.kind == "appliance"
    if turn.open_tickets and not complained:
        return None
    not_ours = appliance not in turn.rulebook.shop.serves
    asks = bool({"ask_warranty", "ask_price"} & set(reading.intents))
    spoken_of = complained or asked_for or asks or not_ours or _complains(reading) or not reading.intents
    if not turn.open_tickets and not spoken_of:
        return None
    return open_ticket(turn, appliance)


def _signs_of(reading: Reading, appliance: str) -> list[str]:
    return [s.code for s in reading.symptoms if s.appliance == appliance]


def _complains(reading: Reading) -> bool:
    """Whether the reading is a complaint of some machine."""
    return bool(reading.symptoms or reading.hazards or reading.urgency or COMPLAINS & set(reading.intents))


def _says_when(turn: Turn, reading: Reading) -> bool:
    """Whether they answer with when they would like us, asked what is the matter: kept, and the machine asked for again."""
    asked = turn.state.asked
    return reading.wish is not None and asked is not None and asked.kind == "appliance"


def _takes_back(reading: Reading, focus: TicketState) -> bool:
    """Whether the appliance named replaces the one under discussion instead of joining it."""
    return focus.appliance == UNKNOWN or (reading.corrects and focus.visit is None)


def rename(turn: Turn, ticket: TicketState, appliance: str, *, said_wrong: bool = True) -> None:
    """Give the complaint to another machine; what was said of it stays where the other machine can have it too."""
    rules = turn.rulebook.appliances.get(appliance)
    keep = {c: v for c, v in ticket.symptoms.items() if rules is None or c in rules.symptoms}
    if ticket.appliance != UNKNOWN and said_wrong:
        words = f"Corrected: the complaint is of the {appliance}, not the {ticket.appliance}."
        turn.because("heard", words, dropped=sorted(set(ticket.symptoms) - set(keep)))
        turn.learned.add("corrected")
    turn.learned.add("appliance")
    seen = rules.observations if rules is not None and ticket.appliance == UNKNOWN else {}
    standing = turn.state.asked
    if standing and standing.ticket == ticket.key and ticket.appliance != UNKNOWN:
        turn.put(asked=None)
    earlier = _earlier(turn.state, appliance)
    inherited = {k: v for k, v in earlier.facts.items() if k in SAME_MACHINE} if earlier else {}
    turn.change(
        ticket.key, appliance=appliance, symptoms=keep, one_of=(), checks={}, ready=False,
        observations={id: v for id, v in ticket.observations.items() if id in seen and v in seen[id].values},
        facts={**inherited, **ticket.facts}, earlier=earlier.key if earlier else ticket.earlier,
        asked=() if ticket.appliance != UNKNOWN else ticket.asked,
    )  # fmt: skip


def open_ticket(turn: Turn, appliance: str) -> str:
    """Open a ticket for *appliance* and give its key; an earlier complaint of the same machine is linked."""
    key = f"t{turn.state.next_ticket}"
    earlier = _earlier(turn.state, appliance)
    facts = {k: v for k, v in earlier.facts.items() if k in SAME_MACHINE} if earlier else {}
    ticket = TicketState(
        key=key, appliance=appliance, opened_at=turn.now, facts=facts, earlier=earlier.key if earlier else None
    )
    focus = turn.state.focus if turn.state.in_focus and turn.state.in_focus.open else key
    if earlier is not None and (turn.now - earlier.opened_at).days <= passing.COMES_BACK_DAYS:
        ticket = ticket.model_copy(update=passing.carried_over(earlier))
    turn.put(tickets=(*turn.state.tickets, ticket), next_ticket=turn.state.next_ticket + 1, focus=focus)
    turn.learned.add("ticket")
    again = f", which comes back from {earlier.key}" if earlier else ""
    turn.because("heard", f"Opened ticket {key} for the {appliance}{again}.", ticket=key)
    return key


def _earlier(state: State, appliance: str) -> TicketState | None:
    """The last closed complaint of the same kind of machine."""
    if appliance == UNKNOWN:
        return None
    return next((t for t in reversed(state.tickets) if not t.open and t.appliance == appliance), None)


def _contact(turn: Turn, reading: Reading) -> None:
    """Name, address and the like; the last word counts."""
    told: dict[str, object] = {}
    for name in ("name", "address", "postal_code", "phone", "email", "payer"):
        value = name_of(turn, reading) if name == "name" else reading.facts.get(name)
        if isinstance(value, str) and value:
            told[name] = value
    access = reading.facts.get("access")
    only_note = access == (reading.text.strip(),) and another_matter(turn, reading)
    called = told.get("name") or turn.state.contact.name
    told_ways = map(str, access) if isinstance(access, tuple | list) else ()
    ways = [way for way in told_ways if not is_their_name(way, called)]
    if ways and not only_note:
        notes = dict.fromkeys([*turn.state.contact.access, *ways])
        told["access"] = tuple(a for a in notes if not any(a != b and a in b for b in notes))[-6:]
    if told:
        turn.put(contact=turn.state.contact.model_copy(update=told))
        turn.learned.update(told)


def _wish(turn: Turn, reading: Reading) -> None:
    """Keep when they would like us, days from today made calendar dates so that it still holds tomorrow."""
    focus = turn.state.in_focus
    if reading.wish is None or focus is None or not focus.open:
        return
    turn.change(focus.key, wish=_after(focus.wish, wished(turn, reading.wish)))
    turn.learned.add("wish")


def _after(before: Wished | None, now: Wished) -> Wished:
    """
    *now* with the days that were ruled out *before* and are not asked for since: “not tomorrow”, then “friday neither”.

    What only rules days out leaves standing what else was asked for.
    """
    if before is None:
        return now
    out = {
        "days_out": tuple(dict.fromkeys([*(d for d in before.days_out if d not in now.days_in), *now.days_out])),
        "dates_out": tuple(dict.fromkeys([*(d for d in before.dates_out if d not in now.dates), *now.dates_out])),
    }
    if now.days_in or now.dates or now.week or now.start or now.end or now.part or now.soonest:
        return now.model_copy(update=out)
    left = {
        "days_in": tuple(day for day in before.days_in if day not in now.days_out),
        "dates": tuple(day for day in before.dates if day not in now.dates_out),
    }
    return before.model_copy(update={**out, **left, "words": now.words})


def wished(turn: Turn, wish: Wish) -> Wished:
    """*wish* as it is kept in the state."""
    today = turn.now.astimezone(ZoneInfo(turn.rulebook.shop.timezone)).date()
    days, out = ([today + timedelta(days=n) for n in ahead] for ahead in (wish.relative, wish.relative_out))
    dates = (*wish.dates, *((d.month, d.day) for d in days))
    dates_out = (*wish.dates_out, *((d.month, d.day) for d in out))
    return Wished(
        days_in=wish.days_in, days_out=wish.days_out, dates=dates, week=wish.week, start=wish.start, end=wish.end,
        part=wish.part, soonest=wish.soonest, words=wish.words[:80], point=wish.point, dates_out=dates_out,
        also=wish.also, apart=tuple(wished(turn, one) for one in wish.apart),
    )  # fmt: skip


def forget_if_long_silent(turn: Turn, days: int) -> None:
    """Drop who they were and closed complaints: after *days* of silence the number may be somebody else's."""
    last = turn.state.last_in
    if last is None or turn.now - last <= timedelta(days=days):
        return
    standing = tuple(t for t in turn.state.tickets if t.open)
    turn.put(contact=Contact(), tickets=standing, asked=None, introduced=False)
    turn.because("held", f"The number was silent for more than {days} days: nothing kept is told to it.")
