"""Danger first: the instruction alone, people told, owner checks over. What follows it stands in ``after_danger``."""

from __future__ import annotations

from datetime import timedelta

from service.conversation.hear import UNKNOWN, open_ticket
from service.conversation.heeded import only_out_and_called, sensed_again, told_of_then
from service.conversation.people import reads_when
from service.conversation.state import DangerHeld
from service.conversation.step import Alarm
from service.conversation.underway import Turn
from service.reading.model import Reading
from service.rulebook.schema.danger import Danger, Instruction
from service.scheduling.hours import is_open

SPEAK_AGAIN = timedelta(minutes=10)
"""A danger named again after this long is told again; sooner, the question after it comes first."""
UNANSWERED = timedelta(minutes=10)
"""When the office hears that nobody has answered the instruction."""


def heard(turn: Turn, reading: Reading) -> bool:
    """
    Answer the dangers of *reading*; True when an instruction went out, and then nothing else is said this turn.

    Also for a number that opted out and a thread that a person holds: it may save somebody.
    """
    codes = [h.code for h in reading.hazards if h.code in turn.rulebook.dangers]
    if not codes:
        return False
    held = turn.state.danger
    if held is not None and only_out_and_called(turn, reading):
        return False
    key = _ticket(turn, reading)
    ticket = turn.the(key)
    new = [c for c in dict.fromkeys(codes) if held is None or c not in held.codes]
    _raise(turn, key, codes)
    if held is not None and not new and not _tell_again(turn, held, reading):
        return False
    rules = sorted((turn.rulebook.dangers[c] for c in (new or codes)), key=lambda d: d.rank)
    _instruct(turn, key, rules[0], ticket.appliance)
    told = tuple(dict.fromkeys([*(held.codes if held else ()), *codes]))
    turn.put(danger=DangerHeld(codes=told, at=turn.now, ticket=key), asked=None)
    _tell_people(turn, key, rules)
    _say_who_reads(turn, rules)
    return True


def _tell_again(turn: Turn, held: DangerHeld, reading: Reading) -> bool:
    """Told long after, or as back once it was ended; never what only answers or tells how it was."""
    if held.safe and sensed_again(turn, reading):
        return True
    return turn.now - held.at >= SPEAK_AGAIN and not told_of_then(turn, reading)


def _ticket(turn: Turn, reading: Reading) -> str:
    """The ticket of the machine that is dangerous: the one named, else the one under discussion, else a new one."""
    told_of = (h.appliance for h in reading.hazards if h.appliance in reading.appliances)
    named = next((a for a in (*told_of, *reading.appliances) if a and a != UNKNOWN), None)
    standing = turn.open_tickets
    match = next((t for t in standing if named is not None and t.appliance == named), None)
    if match is None and standing and (named is None or standing[0].appliance == UNKNOWN):
        match = standing[0]
    key = match.key if match else open_ticket(turn, named or UNKNOWN)
    turn.put(focus=key)
    return key


def _raise(turn: Turn, key: str, codes: list[str]) -> None:
    """Ticket to *now*, owner checks and everything under way off, for a person."""
    ticket = turn.the(key)
    hazards = tuple(dict.fromkeys([*ticket.hazards, *codes]))
    why = tuple(dict.fromkeys([f"danger: {c.replace('_', ' ')}" for c in hazards]))
    turn.change(
        key, hazards=hazards, hazards_cleared=False, level="now", level_why=why, offers=(), ready=False,
        needs_person="danger: " + ", ".join(c.replace("_", " ") for c in hazards),
    )  # fmt: skip
    for other in turn.open_tickets:
        if other.stage == "trying":
            turn.change(other.key, stage="narrowing")
    for wake in ("silence", "offer:*"):
        turn.clear_wake(wake)


def _instruct(turn: Turn, key: str, rule: Danger, appliance: str) -> None:
    instruction = rule.instruction_for.get(appliance, rule.instruction)
    turn.at_once("danger", f"danger.{rule.code}", words_of(turn, rule, instruction), ticket=key)
    turn.because("told", f"{rule.signal}: told what to do about {rule.code}; owner checks end.", rule.code,
                 source=instruction.source, rank=rule.rank)  # fmt: skip


def words_of(turn: Turn, rule: Danger, instruction: Instruction) -> str:
    """The instruction, its signal word first."""
    text = turn.own(instruction.say)
    return text if text.startswith(_signals(turn, rule)) else f"{_signals(turn, rule)[0]}: {text}"


def _signals(turn: Turn, rule: Danger) -> tuple[str, ...]:
    """The signal word in their language, then as the rules have it."""
    return (turn.words(f"signal.{rule.signal.lower()}"), rule.signal)


def _tell_people(turn: Turn, key: str, rules: list[Danger]) -> None:
    on_call = any("on_call" in rule.tell for rule in rules)
    desk = " ".join(rule.desk for rule in rules)
    turn.alarms.append(Alarm(kind="danger", ticket=key, text=desk[:400], on_call=on_call))
    turn.wake("danger_check", "danger_check", turn.now + UNANSWERED, ticket=key)


def _say_who_reads(turn: Turn, rules: list[Danger]) -> None:
    """Who is told and when a person reads this, in a text of its own after the instruction."""
    if turn.held or turn.state.consent == "out":
        return
    shop = turn.rulebook.shop
    rings = shop.on_call and any("on_call" in r.tell for r in rules) and not is_open(shop, turn.now)
    told = "danger.told_on_call" if rings else "danger.told_office"
    said = turn.words(told, when=reads_when(turn))
    id = told
    if not turn.state.introduced:
        id, said = "intro.after_danger", f"{said} {turn.words('intro.after_danger')}"
        turn.put(introduced=True)
    turn.at_once("danger", id, said, ticket=turn.state.focus)
