"""Windows for a visit: what the job takes, which are free, how they are offered."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from service.conversation.ask import pose
from service.conversation.judged import plan_of
from service.conversation.people import call_person, reads_when
from service.conversation.state import Offered, TicketState, Wished
from service.conversation.underway import DiaryMissing, Turn
from service.conversation.visit_words import fee_words
from service.reading.model import Wish
from service.scheduling.model import Diary, Job, Offer
from service.scheduling.offers import find_offers
from service.scheduling.words import window_words
from service.wording.segments import plain


def job_of(turn: Turn, keys: Sequence[str]) -> Job:
    """The work of one visit for *keys*: minutes add up, skills join."""
    shop = turn.rulebook.shop
    usual = promise = 0
    skills: set[str] = set()
    for key in keys:
        ticket = turn.the(key)
        rules = turn.rulebook.appliances.get(ticket.appliance)
        skills |= {ticket.appliance, *(rules.basics.skills if rules else ())}
        plan = plan_of(turn.rulebook, ticket)
        if plan is None:
            continue
        usual, promise = usual + plan.minutes_usual, promise + plan.minutes_promise
    place = shop.area[turn.state.contact.postal_code or ""]
    return Job(place.lat, place.lon, usual or 60, promise or 90, frozenset(skills), turn.language)


def together(turn: Turn, lead: str) -> list[str]:
    """The tickets the leading one's visit is for: all that wait for one."""
    visit = turn.the(lead).visit
    if visit is not None:
        return [t.key for t in turn.open_tickets if t.visit is not None and t.visit.id == visit.id]
    return [lead, *(t.key for t in turn.open_tickets if t.ready and t.visit is None and t.key != lead)]


def offer(turn: Turn, lead: str, wish: Wish | None, *, said: str | None = None, count: int = 3) -> None:
    """Offer up to *count* windows near *wish*; said: a sentence before them. Without any, a person is asked for."""
    shop = turn.rulebook.shop
    job = job_of(turn, together(turn, lead))
    moving = visit.id if (visit := turn.the(lead).visit) else None
    found = find_offers(shop, diary(turn), job, wish, turn.now, language=turn.language, count=count, moving=moving)
    if not found.offers:
        call_person(turn, f"no window found ({found.why or 'the diary is full'})", ticket=lead)
        turn.tell("offer.none", when=reads_when(turn))
        turn.change(lead, offers=())
        turn.put(asked=None)
        return
    offered = tuple(_offered(turn, o) for o in found.offers)
    turn.change(lead, offers=offered)
    if said is not None:
        turn.tell(said)
    elif not found.fits_wish:
        turn.tell("offer.not_as_wished")
    if f"fee:{lead}" not in turn.the(lead).told and turn.the(lead).visit is None:
        turn.tell_own("shop.fees.say", fee_words(turn))
        turn.change(lead, told=(*turn.the(lead).told, f"fee:{lead}"))
    _pose(turn, lead, len(offered))
    windows = "; ".join(o.say for o in offered)
    costs = {o.say: round(f.cost_min, 1) for o, f in zip(offered, found.offers, strict=True)}
    turn.because("offered", f"Offered {windows}: the least added travel that fits.", travel_min=costs, why=found.why)


def offer_alone(turn: Turn, lead: str, place: int) -> None:
    """Of what was offered put the one at *place* alone."""
    offered = turn.the(lead).offers[place]
    turn.change(lead, offers=(offered,))
    _pose(turn, lead, 1)
    turn.because("offered", f"Offered {offered.say} alone.")


def _pose(turn: Turn, lead: str, count: int) -> None:
    """Ask which of the windows, or whether the only one, and note when they lapse."""
    pose(turn, "offer", ticket=lead, choices=[str(n) for n in range(count)], code="one" if count == 1 else None)
    lasts = timedelta(hours=turn.rulebook.shop.policies.offer_expires_h)
    turn.wake("offer_expired", f"offer:{lead}", turn.now + lasts, ticket=lead)


def diary(turn: Turn) -> Diary:
    """The diary handed in. Raises DiaryMissing."""
    if turn.diary is None:
        raise DiaryMissing("windows are to be offered and no diary was handed in; needs_diary should have asked for it")
    return turn.diary


def _offered(turn: Turn, found: Offer) -> Offered:
    say = plain(
        window_words(found.start, found.end, turn.language, turn.now),
        turn.language,
        turn.rulebook.shop.policies.spanish,
    )
    return Offered(technician=found.technician, start=found.start, end=found.end, minutes=found.minutes, say=say)


def kept_wish(kept: Wished | None) -> Wish | None:
    """A kept wish as the diary takes it."""
    if kept is None:
        return None
    told = {name: getattr(kept, name) for name in Wished.model_fields}
    return Wish(**{**told, "apart": tuple(wish for one in kept.apart if (wish := kept_wish(one)) is not None)})


def local_offers(turn: Turn, ticket: TicketState) -> list[Offer]:
    """What was offered, in shop-local time again."""
    zone = ZoneInfo(turn.rulebook.shop.timezone)
    return [
        Offer(o.technician, o.start.astimezone(zone), o.end.astimezone(zone), o.minutes, 0.0) for o in ticket.offers
    ]


def visit_id(turn: Turn, ticket: str) -> str:
    """The id of a visit booked in this turn; a turn that is taken again books the same."""
    return f"{turn.thread}-{ticket}-{turn.number}"


def lapsed(turn: Turn, since: datetime) -> bool:
    """Whether windows offered at *since* no longer stand."""
    return turn.now - since > timedelta(hours=turn.rulebook.shop.policies.offer_expires_h)
