"""Codes, moments, money and numbers in the words of the shop. Nothing here decides anything."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from service.conversation.state import Contact, TicketState
from service.diagnosis.model import NOT_LOOKED_AT
from service.rulebook.model import Rulebook
from service.rulebook.schema.shop import Span

LEVELS = {"now": "Now", "today": "Today", "soon": "Soon", "routine": "In turn"}

STAGES = {
    "listening": "listening: what is wrong?",
    "narrowing": "narrowing: which of these?",
    "trying": "trying: an owner check is under way",
    "arranging": "arranging: when and where?",
    "arranged": "arranged: a visit stands",
    "visited": "visited: an outcome is recorded",
    "deciding": "deciding: somebody must approve",
    "parts": "parts: waiting for one",
    "closed": "closed",
}

CLOSED = {
    "settled_by_owner": "settled by owner",
    "repaired": "repaired",
    "declined": "declined",
    "not_worth_repair": "not worth repair",
    "no_part": "no part",
    "no_access": "no access",
    "left_unsafe": "left unsafe",
    "referred": "referred",
    "out_of_area": "out of area",
    "not_ours": "not ours",
    "withdrawn": "withdrawn",
    "gone_quiet": "gone quiet",
}

VISITS = {
    "tentative": "waits to be confirmed",
    "standing": "stands",
    "done": "done",
    "cancelled": "cancelled",
    "missed": "missed",
}

REPLIES = {
    "draft": "draft, not sent",
    "waiting": "waiting to go out",
    "leased": "on its way",
    "sent": "sent",
    "delivered": "delivered",
    "dropped": "not sent",
    "failed": "not delivered",
    "unsure": "perhaps not delivered",
}

_DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def clock_words(moment: datetime) -> str:
    """``9 am``, ``1:30 pm``: of an aware moment in its own zone."""
    hour = moment.hour % 12 or 12
    minutes = f":{moment.minute:02d}" if moment.minute else ""
    return f"{hour}{minutes} {'am' if moment.hour < 12 else 'pm'}"


def day_words(moment: datetime) -> str:
    """``Thu 4 Dec``: of an aware moment in its own zone."""
    return day_name(moment.date())


def month_words(month: str) -> str:
    """``Nov 2026``: of ``2026-11``."""
    year, number = month.split("-")
    return f"{_MONTHS[int(number) - 1]} {year}"


def when_words(moment: datetime, now: datetime, zone: ZoneInfo) -> str:
    """The moment as somebody would say it at *now*: ``9:05 am``, ``yesterday 4 pm``, ``Mon 3 Nov, 4 pm``."""
    local, today = moment.astimezone(zone), now.astimezone(zone).date()
    hour = f"{local.hour % 12 or 12}:{local.minute:02d} {'am' if local.hour < 12 else 'pm'}"
    if local.date() == today:
        return hour
    if local.date() == today - timedelta(days=1):
        return f"yesterday {hour}"
    year = f" {local.year}" if local.year != today.year else ""
    return f"{day_words(local)}{year}, {hour}"


def ago_words(moment: datetime, now: datetime) -> str:
    """How long ago: ``just now``, ``4 min ago``, ``3 h ago``, ``2 days ago``."""
    minutes = int((now - moment).total_seconds() // 60)
    if minutes < 1:
        return "just now"
    if minutes < 60:
        return f"{minutes} min ago"
    if minutes < 36 * 60:
        return f"{minutes // 60} h ago"
    return f"{minutes // 1440} days ago"


def window(start: datetime, end: datetime, zone: ZoneInfo) -> str:
    """``Thu 4 Dec, 1 to 3 pm``: a visit's hours in the shop's zone."""
    first, last = start.astimezone(zone), end.astimezone(zone)
    begins = clock_words(first)
    if (first.hour < 12) == (last.hour < 12):
        begins = begins.rsplit(" ", 1)[0]
    return f"{day_words(first)}, {begins} to {clock_words(last)}"


def hours(start: datetime, end: datetime, zone: ZoneInfo) -> str:
    """``1 to 3 pm``: the hours alone."""
    return window(start, end, zone).split(", ", 1)[1]


def day_name(day: date) -> str:
    """``Thu 4 Dec``."""
    return f"{_DAYS[day.weekday()]} {day.day} {_MONTHS[day.month - 1]}"


def span(hours: Span) -> str:
    """``8 am to 5 pm``: from one time of day to another."""
    first, last = (clock_words(datetime.combine(date.min, time_)) for time_ in (hours.start, hours.end))
    return f"{first} to {last}"


def phone_words(number: str) -> str:
    """``(505) 555-0142`` for a North American number; others as they are."""
    if number.startswith("+1") and len(number) == 12:
        return f"({number[2:5]}) {number[5:8]}-{number[8:]}"
    return number


def money(cents: int) -> str:
    """``$95`` or ``$95.50``."""
    return f"${cents // 100:,}" if cents % 100 == 0 else f"${cents / 100:,.2f}"


def percent(share: float) -> str:
    """``34 %``; what is not nothing never reads as 0."""
    whole = round(share * 100)
    return f"{whole} %" if whole or share <= 0 else "under 1 %"


def appliance_words(rulebook: Rulebook, code: str) -> str:
    """``Dishwasher``: what the shop calls it."""
    known = rulebook.appliances.get(code)
    name = rulebook.names.get(code)
    said = known.basics.say.en if known else name.say.en if name else code.replace("_", " ")
    return said[:1].upper() + said[1:] if code != "unknown" else "Machine not known yet"


def machine_choices(rulebook: Rulebook) -> tuple[tuple[str, str], ...]:
    """What a ticket may be about, code and name: what the shop mends, then what else the rules know, marked as not ours."""
    ours = [(code, appliance_words(rulebook, code)) for code in rulebook.shop.serves]
    others = [code for code in rulebook.appliances if code not in rulebook.shop.serves]
    return (*ours, *((code, f"{appliance_words(rulebook, code)} (not ours to mend)") for code in others))


def symptom_words(rulebook: Rulebook, appliance: str, code: str) -> str:
    """``drains, but slowly``: as it is said back to the customer."""
    known = rulebook.appliances.get(appliance)
    if known and code in known.symptoms:
        return known.symptoms[code].say.en
    return rulebook.vocabulary.symptoms.get(code, code.replace("_", " "))


def complaint_words(rulebook: Rulebook, ticket: TicketState) -> str:
    """The complaint in a phrase: what is said to be so, else the danger named, else that nothing is known yet."""
    said = [code for code, so in ticket.symptoms.items() if so and code != "vague"]
    if not said:
        said = [code for group in ticket.one_of[:1] for code in group]
        joined = " or ".join(symptom_words(rulebook, ticket.appliance, code) for code in said)
        named = next((name[:1].lower() + name[1:] for name in hazard_names(rulebook, ticket.hazards)), "")
        return joined or named or "not said yet what is wrong"
    return ", ".join(symptom_words(rulebook, ticket.appliance, code) for code in said[:3])


def telling_words(ticket: TicketState, contact: Contact, most: int = 8) -> tuple[str, ...]:
    """Their own sentences that say something of the machine: no address, name, gate code or bare yes; the first always."""
    told = [part.casefold() for part in (contact.address, contact.name, *contact.access) if part]
    rest = [
        said
        for said in ticket.words[1:]
        if len(said.split()) >= 3 and not any(part in said.casefold() for part in told)
    ]
    longest = sorted(rest, key=lambda said: -len(said))[: most - 1]
    return (*ticket.words[:1], *(said for said in rest if said in longest))


def without_quote(why: str) -> str:
    """Why a person is asked for, without the customer's text after it: that stands whole in the conversation."""
    return why.partition('"): "')[0] + '")' if '"): "' in why else why


def hazard_words(rulebook: Rulebook, codes: Iterable[str]) -> tuple[str, ...]:
    """Hazards as the office is told of them."""
    return tuple(
        rulebook.dangers[code].desk if code in rulebook.dangers else rulebook.vocabulary.hazards.get(code, code)
        for code in codes
    )


def hazard_names(rulebook: Rulebook, codes: Iterable[str]) -> tuple[str, ...]:
    """Hazards in a few words: what the office is told, without what was done about it."""
    return tuple(said.split(". ")[0].rstrip(".") for said in hazard_words(rulebook, codes))


def ended_words(fixed: bool, found: str, why: str | None, stage: str) -> str:
    """How a job ended. stage: of the ticket, where this outcome left it there; empty where it has gone on since."""
    if fixed or found == NOT_LOOKED_AT:
        return "fixed" if fixed else why or ""
    said = {"parts": "coming back", "deciding": "not fixed, the office decides"}.get(stage, "not fixed yet")
    return f"{said}: {why}" if why else said


def part_words(rulebook: Rulebook, found: str, parts: Iterable[str]) -> str:
    """Parts that mended the cause *found*, by their trade names; a machine that has both comes before any other."""
    books = sorted(rulebook.appliances.values(), key=lambda book: found not in book.causes)
    named = {code: part.name.en for book in reversed(books) for code, part in book.parts.items()}
    return ", ".join(named.get(part, code_words(part)) for part in parts)


def code_words(code: str) -> str:
    """A code as words: ``cleaned_filter`` is ``cleaned filter``."""
    return code.replace("_", " ")
