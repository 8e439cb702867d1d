"""While a danger is not cleared: is it followed, one question, a person; then whatever they ask or tell gets a short answer."""

from __future__ import annotations

from service.conversation import help_came
from service.conversation.asked_in_danger import PRICES, asks, asks_when, only_asks, price_asked
from service.conversation.compose import compose
from service.conversation.danger import words_of
from service.conversation.danger_place import ask_where
from service.conversation.heeded import (
    all_well,
    found_safe,
    is_off,
    made_safe,
    out_and_called,
    part_done,
    sensed_again,
    smoke_gone,
    told_of_then,
)
from service.conversation.moving import standing
from service.conversation.people import reads_when
from service.conversation.smalltalk import TELLS, nods
from service.conversation.state import Asked, DangerHeld
from service.conversation.step import Alarm
from service.conversation.stopping import asks_to_use
from service.conversation.underway import Turn
from service.conversation.visits import status
from service.reading.model import Reading
from service.rulebook.schema.danger import Danger
from service.wording.segments import plain

REMINDED_MOST = 2
"""As often as the core of the instruction is said again to answers that do not follow it."""
FACTS = TELLS - {"answer", "ticket"}
"""What a text may bring that the office can use."""
WHERE = frozenset({"postal_code", "address", "name", "phone", "access"})
"""What is told for the visit."""

_ENDS_WITH_POWER = frozenset({"sparks", "hot_wiring", "burning_smell"})
"""Dangers that are over for now once the machine is off or unplugged ..."""
_ENDS_WITHOUT_SMOKE = _ENDS_WITH_POWER | {"smoke"}
"""... those of which they must say that there is no smoke, too ..."""
_ENDS_IF_WELL = _ENDS_WITHOUT_SMOKE | {"shock"}
"""... and those after which nobody may be unwell."""


def follow(turn: Turn, reading: Reading) -> bool:
    """
    Take a text that comes while a danger stands; True while it does.

    Whatever they write is heard; a denial does not clear the danger, since only a person does. No question is left
    without an answer, and the desk is told once.
    """
    held = turn.state.danger
    if held is None:
        return False
    turn.clear_wake("danger_check")
    held = _put(turn, held, answered=True)
    if turn.held or turn.state.consent == "out":
        return True
    rules = sorted((turn.rulebook.dangers[c] for c in held.codes if c in turn.rulebook.dangers), key=lambda d: d.rank)
    if not rules:
        _at_hand(turn, held, reading, None)
    elif rules[0].leave and not held.safe:
        _until_out(turn, held, reading, rules[0])
    elif not held.asked_after and _answered_unasked(turn, reading, held):
        _first_answer(turn, _put(turn, held, asked_after=True), reading, rules[0])
    elif not held.asked_after:
        if PRICES & {*reading.intents}:
            _remind(turn, held, rules[0])
            price_asked(turn, reading)
        _ask_after(turn, _now(turn, held), rules[0], off=_only_health_is_open(turn, reading, held))
    elif not held.handed_over:
        _first_answer(turn, held, reading, rules[0])
    else:
        _at_hand(turn, held, reading, rules[0])
    _unlike_the_last(turn)
    return True


def _answered_unasked(turn: Turn, reading: Reading, held: DangerHeld) -> bool:
    """Whether they tell, unasked, that help is there; or that it is off and, where somebody may be hurt, that all are well."""
    if help_came.news(turn, held, reading) and not sensed_again(turn, reading):
        return True
    codes = {*held.codes}
    smokes = "smoke" in codes and not smoke_gone(turn, reading)
    ended = not smokes and (codes <= _ENDS_WITHOUT_SMOKE or (codes <= _ENDS_IF_WELL and all_well(turn, reading)))
    return ended and is_off(turn, reading)


def _only_health_is_open(turn: Turn, reading: Reading, held: DangerHeld) -> bool:
    """Whether after a shock they tell that it is off, and how people feel is all that is left to ask."""
    return {*held.codes} <= _ENDS_WITH_POWER | {"shock"} and is_off(turn, reading)


def _put(turn: Turn, held: DangerHeld, **values: object) -> DangerHeld:
    held = held.model_copy(update=values)
    turn.put(danger=held)
    return held


def _until_out(turn: Turn, held: DangerHeld, reading: Reading, rule: Danger) -> None:
    """Where people must get out: until they say plainly that they are and that help is called, the core comes first."""
    checked = found_safe(turn, reading)
    if checked or out_and_called(turn, reading, asked=held.asked_after):
        held = _put(turn, held, safe=True, checked=checked, asked_after=True)
        turn.because(
            "heard", "They say that it was found safe." if checked else "They say: all out, and help is called."
        )
        _hand_over(turn, held, reading)
        if checked:
            turn.tell("danger.checked", when=reads_when(turn))
        elif help_came.there(turn, reading):
            help_came.thank(turn, held, rule)
        else:
            turn.tell("danger.out")
            help_came.say_next(turn, held)
        price_asked(turn, reading)
        ask_where(turn, held, rule)
        return
    asked_before = held.asked_after
    if asked_before:
        held = _hand_over(turn, held, reading)
    price, coming = "ask_price" in reading.intents, asks_when(reading)
    if not asked_before and part_done(turn, reading):
        _ask_after(turn, held, rule)
    elif price or coming or held.reminded < REMINDED_MOST:
        _remind(turn, held, rule)
        price_asked(turn, reading)
        if coming:
            turn.tell("danger.no_time_yet")
        if not asked_before:
            _ask_after(turn, _now(turn, held), rule)
        else:
            turn.tell("danger.told_office", spare=price or coming, when=reads_when(turn))
    elif not _needs_none(turn, reading):
        turn.because("told", "Reminded often enough: who has it, and the office's phone.", rule.code)
        if WHERE & turn.learned:
            turn.tell("danger.noted")
        else:
            turn.tell("danger.office_still", when=reads_when(turn))


def _now(turn: Turn, held: DangerHeld) -> DangerHeld:
    return turn.state.danger or held


def _ask_after(turn: Turn, held: DangerHeld, rule: Danger, *, off: bool = False) -> None:
    """The question that follows the instruction; off: that it is off they have said, so only of people."""
    if off:
        turn.tell("danger.feels_well")
    else:
        turn.tell_own(f"danger.{rule.code}.ask_after", turn.own(rule.ask_after))
    turn.ask(Asked(kind="yes_no", ticket=held.ticket, code=rule.code, at=turn.now, edition=turn.rulebook.fingerprint))
    _put(turn, held, asked_after=True)
    turn.because("asked", "They answered the danger instruction: one question, then a person.", rule.code)


def _first_answer(turn: Turn, held: DangerHeld, reading: Reading, rule: Danger) -> None:
    """
    The answer to the question after the instruction: thanked only where it says that the danger is ended.

    A price or a time asked for instead is no answer to it: it is put again.
    """
    if only_asks(reading) and held.reminded < REMINDED_MOST and not is_off(turn, reading):
        _remind(turn, held, rule)
        if not price_asked(turn, reading):
            turn.tell("danger.office_has", when=reads_when(turn))
        _ask_after(turn, _now(turn, held), rule)
        return
    held = _hand_over(turn, held, reading)
    if help_came.news(turn, held, reading) and not sensed_again(turn, reading):
        held = _put(turn, held, safe=True)
        help_came.thank(turn, held, rule)
    elif made_safe(turn, reading):
        held = _put(turn, held, safe=True)
        turn.tell("danger.person", when=reads_when(turn))
    else:
        _remind(turn, held, rule)
        turn.tell("danger.takes", when=reads_when(turn))
    price_asked(turn, reading)
    if held.safe or FACTS & turn.learned:
        ask_where(turn, held, rule)


def _hand_over(turn: Turn, held: DangerHeld, reading: Reading) -> DangerHeld:
    """Their answer to the desk, once."""
    if held.handed_over:
        return held
    turn.alarms.append(Alarm(kind="person", ticket=held.ticket, text=_answer_for_desk(reading)))
    turn.because(
        "held", "A person takes it from here; until then only what they ask is answered, and nothing is booked."
    )
    return _put(turn, held, handed_over=True)


def _remind(turn: Turn, held: DangerHeld, rule: Danger) -> None:
    """The core of the instruction once more, signal word first."""
    turn.kind = "danger"
    short = turn.own(rule.again) if rule.again else None
    turn.tell_own(f"danger.{rule.code}.again", short or words_of(turn, rule, rule.instruction))
    _put(turn, _now(turn, held), reminded=held.reminded + 1)
    turn.because("told", f"{rule.signal}: not a plain yes, so the core of it once more.", rule.code,
                 source=rule.instruction.source)  # fmt: skip


def _at_hand(turn: Turn, held: DangerHeld, reading: Reading, rule: Danger | None) -> None:
    """A person has it: what they ask is answered, what they tell is kept; thanks alone need no answer."""
    back = held.safe and sensed_again(turn, reading)
    told_again = back or {h.code for h in reading.hazards} & set(held.codes)
    if (
        rule is not None
        and told_again
        and not (found_safe(turn, reading) or (held.safe and told_of_then(turn, reading)))
    ):
        held = _put(turn, held, safe=False, checked=False)
        if back:
            turn.alarms.append(Alarm(kind="person", ticket=held.ticket, text=_back_for_desk(reading)))
        if back or held.reminded < REMINDED_MOST or rule.leave:
            _remind(turn, held, rule)
            turn.tell("danger.told_office", when=reads_when(turn))
            return
    if rule is not None and help_came.news(turn, held, reading):
        held = _put(turn, held, safe=True)
        help_came.thank(turn, held, rule)
    elif not held.safe and made_safe(turn, reading):
        held = _put(turn, held, safe=True)
        turn.because("heard", "They say that it is ended now.")
        turn.tell("danger.person", when=reads_when(turn))
    elif rule is not None and rule.leave and not held.checked and found_safe(turn, reading):
        held = _put(turn, held, checked=True)
        turn.because("heard", "They say that it was found safe.")
        turn.tell("danger.checked", when=reads_when(turn))
    elif _needs_none(turn, reading):
        turn.because("held", "A danger stands and a person has it: thanks or a nod, not answered.")
        return
    else:
        turn.because("told", "A danger stands and a person has it: what they ask is answered, what they tell is kept.")
        _answer(turn, reading)
    ask_where(turn, held, rule)


def _answer(turn: Turn, reading: Reading) -> None:
    use = asks_to_use(turn, reading)
    if use:
        turn.tell("danger.no_use", signal=turn.words("signal.warning"))
    answered = price_asked(turn, reading) or use
    if standing(turn) is not None and "ask_status" in reading.intents:
        status(turn)
    elif not answered or asks_when(reading):
        _has_it(turn, reading)
    elif FACTS & turn.learned:
        turn.tell("danger.noted")


def _has_it(turn: Turn, reading: Reading) -> None:
    """What was told is noted; who has it, when they read it and the office's phone to those who ask."""
    facts = bool(FACTS & turn.learned)
    if facts or not asks(turn, reading):
        turn.tell("danger.noted")
    if asks(turn, reading):
        turn.tell("danger.office_has", when=reads_when(turn))


def _needs_none(turn: Turn, reading: Reading) -> bool:
    """Thanks, "ok", an advertisement: nothing asked and nothing told; nor is "noted" said to one text after another."""
    if FACTS & turn.learned or asks(turn, reading) or PRICES & {*reading.intents} or asks_to_use(turn, reading):
        return False
    noted = turn.state.last_reply == turn.words("danger.noted")
    return noted or "spam" in reading.intents or nods(turn, reading)


def _unlike_the_last(turn: Turn) -> None:
    """Never the same text twice in a row: who has it is added, or said in other words."""
    for id in ("danger.office_has", "danger.office_still"):
        if turn.pieces and _whole(turn) == turn.state.last_reply:
            turn.pieces = [p for p in turn.pieces if p.id not in ("danger.office_has", "danger.noted")]
            turn.tell(id, when=reads_when(turn))


def _whole(turn: Turn) -> str:
    return "\n".join(text.text for text in compose(turn.pieces, turn.language))[:600]


def _answer_for_desk(reading: Reading) -> str:
    """What they said after the danger, for the desk: a no to "is everyone OK" must stand out."""
    kind = reading.answer.kind if reading.answer else "something else"
    return f'After the danger they answered ({kind}): "{plain(reading.text, "en")[:160]}"'


def _back_for_desk(reading: Reading) -> str:
    return f'The danger is told as back or worse: "{plain(reading.text, "en")[:160]}"'
