"""The words of a question: what is asked, about what, with its numbered choices, and how it is asked a second time."""

from __future__ import annotations

from collections.abc import Sequence

from service.conversation.passing import KNOWLEDGE
from service.conversation.state import Asked, TicketState
from service.conversation.summary import machine_words
from service.conversation.underway import Said, Turn
from service.conversation.visit_words import earlier_month, visit_words
from service.reading.machines.belonging import PART_OF
from service.rulebook.schema.appliance import Appliance

VAGUE, OWN_WORDS, WHICH = "vague", "own_words", "which"
"""Codes of a ``symptom`` question: the closest of five; in their own words; which of a group."""
INSIDE = "inside"
"""Code of an ``appliance`` question: inside a larger machine, or one of its own."""


def pose(
    turn: Turn,
    kind: str,
    *,
    ticket: str | None = None,
    code: str | None = None,
    choices: Sequence[str] = (),
    counts: bool = False,
    tries: int = 1,
    shortly: bool = False,
) -> None:
    """
    Ask. choices: values, their words are found here. counts: one of the questions the shop allows itself. shortly: the
    question stands in their telephone already and something was told besides: gone back to, not put in the same words.

    What is asked is noted on the ticket, so that it is never asked again.
    """
    said = tuple((value, choice_words(turn, kind, ticket, code, value)) for value in choices)
    asked = Asked(
        kind=kind, ticket=ticket, code=code, choices=said, at=turn.now, edition=turn.rulebook.fingerprint, tries=tries
    )
    id, text = gone_back_to(turn, asked) if shortly else worded(turn, asked)
    turn.pieces.append(Said(id, text))
    turn.ask(asked)
    if ticket is None or tries > 1:
        return
    standing = turn.the(ticket)
    mark = code if kind in ("observation", "yes_no") and code else f"{kind}:{code}" if code else kind
    turn.change(
        ticket,
        asked=tuple(dict.fromkeys([*standing.asked, mark])),
        questions=standing.questions + (1 if counts else 0),
    )


def again(turn: Turn, *, lead: str | None = None, shortly: bool = False) -> bool:
    """Ask the open question once more, in the language spoken now, or go back to it *shortly*; False when none is open."""
    asked = turn.state.asked
    if asked is None:
        return False
    if lead is not None:
        turn.tell(lead)
    values = [value for value, _ in asked.choices]
    half_answered = asked.kind == "address" and turn.state.contact.postal_code is not None
    code = None if half_answered else asked.code  # the ZIP came alone: only the street is still asked for
    pose(turn, asked.kind, ticket=asked.ticket, code=code, choices=values, tries=asked.tries + 1, shortly=shortly)
    turn.because("asked", "The open question is put again: this text does not answer it.", asked.code or asked.kind)
    return True


def worded(turn: Turn, asked: Asked) -> tuple[str, str]:
    """The wording id and the text of a question with its choices."""
    id, text = _question(turn, asked)
    text = _of_which(turn, asked) + text
    return id, "\n".join([text, *_numbered(asked)])


def gone_back_to(turn: Turn, asked: Asked) -> tuple[str, str]:
    """A question about a machine, gone back to: its choices without its words, or its words behind the machine's name."""
    ticket = turn.state.ticket(asked.ticket)
    lead = turn.words("heard.back.choices" if asked.choices else "heard.back", machine=_machine(turn, ticket))
    if not asked.choices:
        id, text = _question(turn, asked)
        return id, f"{lead} {text}"
    return "heard.back.choices", "\n".join([lead, *_numbered(asked)])


def _numbered(asked: Asked) -> list[str]:
    return [f"{n} {say}" for n, (_, say) in enumerate(asked.choices, start=1)]


def _of_which(turn: Turn, asked: Asked) -> str:
    """The machine before a question about it, where more than one is complained of and no other word tells which."""
    ticket = turn.state.ticket(asked.ticket)
    if ticket is None or asked.kind not in KNOWLEDGE or asked.code in turn.rulebook.dangers:
        return ""
    if len({t.appliance for t in turn.open_tickets if t.visit is None}) < 2 or ticket.appliance == "unknown":
        return ""
    machine = _machine(turn, ticket)
    lead = f"{_capital(machine)}: "
    said = [piece.text for piece in turn.pieces if piece.id == "heard.signs"]
    return "" if said and all(text.startswith(lead) for text in said) else lead


def lead_of(turn: Turn, ticket: TicketState) -> str:
    """The machine of *ticket* before what is told of it, “Dryer: ”, where complaints of several stand; else nothing."""
    if len({t.appliance for t in turn.open_tickets}) < 2 or ticket.appliance == "unknown":
        return ""
    return f"{_capital(_machine(turn, ticket))}: "


def named_in(turn: Turn, ticket: TicketState, caution: str) -> str:
    """*caution* with its machine behind the signal word, where complaints of several stand: “WARNING: Dryer: Leave it off.”"""
    signal, apart, rest = caution.partition(": ")
    lead = lead_of(turn, ticket)
    return f"{signal}: {lead}{rest}" if apart and signal.isupper() else lead + caution


def _question(turn: Turn, asked: Asked) -> tuple[str, str]:
    ticket = turn.state.ticket(asked.ticket)
    rules = turn.rulebook.appliances.get(ticket.appliance) if ticket else None
    code = asked.code or ""
    if asked.kind == "yes_no" and code in turn.rulebook.dangers:
        rule = turn.rulebook.dangers[code]
        if turn.state.danger is None and rule.ask_first is not None:
            return f"danger.{code}.ask_first", turn.own(rule.ask_first)
        return f"danger.{code}.ask_after", turn.own(rule.ask_after)
    if asked.kind == "observation" and rules and code in rules.observations:
        return f"{rules.code}.observation.{code}", turn.own(rules.observations[code].ask)
    if asked.kind == "check_result" and rules and code in rules.checks:
        return f"{rules.code}.check.{code}", turn.own(rules.checks[code].helped)
    values = {"machine": _machine(turn, ticket), "sign": _sign(turn, rules, code), **_visit_values(turn, ticket)}
    if asked.kind == "yes_no" and values["sign"].split(" ", 1)[0] in _SAYS_NO:
        return "ask.yes_no.not", turn.words("ask.yes_no.not", **values)
    id = f"ask.{asked.kind}.{code}"
    if id not in turn.rulebook.wording[turn.language]:
        id = "ask.wish" if asked.kind == "offer" and not asked.choices else f"ask.{asked.kind}"
    return id, turn.words(id, **values)


_SAYS_NO = frozenset(("no", "ni", "sin", "nada"))
"""A sign that begins so is asked about in a way that a "no" answers plainly."""


def _machine(turn: Turn, ticket: TicketState | None) -> str:
    return machine_words(turn.rulebook, ticket.appliance if ticket else "unknown", turn.language)


def _sign(turn: Turn, rules: Appliance | None, code: str) -> str:
    return turn.own(rules.symptoms[code].say) if rules and code in rules.symptoms else code.replace("_", " ")


def _visit_values(turn: Turn, ticket: TicketState | None) -> dict[str, str]:
    """Values for questions about a visit or an earlier complaint; empty words where there is none."""
    return {"window": visit_words(turn, ticket), "month": earlier_month(turn, ticket)}


def choice_words(turn: Turn, kind: str, key: str | None, code: str | None, value: str) -> str:
    """The words of one choice in the language spoken now."""
    ticket = turn.state.ticket(key)
    rules = turn.rulebook.appliances.get(ticket.appliance) if ticket else None
    if kind == "offer" and ticket is not None and value.isdigit() and int(value) < len(ticket.offers):
        return ticket.offers[int(value)].say
    if kind == "confirm":
        return turn.words("choice.home" if value == "home" else "choice.commercial")
    if kind == "appliance":
        alone = ticket is not None and value in PART_OF and value not in PART_OF.get(ticket.appliance, ())
        return turn.words(
            "choice.alone" if alone else "choice.inside", machine=machine_words(turn.rulebook, value, turn.language)
        )
    if rules is None:
        return value.replace("_", " ")
    if kind == "symptom" and code == VAGUE:
        means = {"+".join(c.means): c.say for c in rules.basics.choices}
        return turn.own(means[value]) if value in means else value
    if kind == "symptom" and value in rules.symptoms:
        return _capital(turn.own(rules.symptoms[value].say))
    if kind == "observation" and code in rules.observations:
        answers = {a.value: a.say for a in rules.observations[code].answers}
        return _capital(turn.own(answers[value])) if value in answers else value
    return value.replace("_", " ")


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
