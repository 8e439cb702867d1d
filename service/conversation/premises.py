"""Where the machine stands, at home or in a business: asked once where both are named."""

from __future__ import annotations

from service.conversation.ask import pose
from service.conversation.matters import named
from service.conversation.state import TicketState
from service.conversation.underway import Turn
from service.reading.model import Reading

USE = "use"
"""Code of the question, and the name of the fact."""
CHOICES = ("home", "commercial")


def ask_where(turn: Turn, ticket: TicketState) -> bool:
    """Ask once whether the machine of *ticket* is at home or in the business, where that is not clear."""
    if turn.rulebook.shop.policies.commercial or f"confirm:{USE}" in ticket.asked:
        return False
    use = ticket.facts.get(USE)
    in_business = any(t.facts.get(USE) == "commercial" for t in turn.state.tickets if t.key != ticket.key)
    if use not in (None, "unclear") or not (use == "unclear" or in_business) or ticket.visit is not None:
        return False
    if ticket.appliance not in ("unknown", *turn.rulebook.shop.serves):
        return False
    pose(turn, "confirm", ticket=ticket.key, code=USE, choices=CHOICES)
    turn.because("asked", "A business was named: whether this machine is at home is asked once.")
    return True


def told(turn: Turn, ticket: TicketState, reading: Reading) -> bool:
    """Take the answer; what is no answer leaves it as a machine at home, which the technician sees."""
    number = reading.text.strip(" .)")
    home = named(turn.rulebook, "at_home", reading.text) is not None
    business = named(turn.rulebook, "business", reading.text) is not None
    if number in ("1", "2"):
        use = CHOICES[int(number) - 1]
    elif home != business:
        use = "home" if home else "commercial"
    else:
        words = {*reading.text.lower().replace(".", " ").split()}
        use = "commercial" if words & _BUSINESS and not words & _HOME else "home"
    turn.answered = True
    turn.learned.add("answer")
    turn.put(asked=None)
    turn.change(ticket.key, facts={**turn.the(ticket.key).facts, USE: use})
    return False


_BUSINESS = frozenset(("business", "work", "shop", "cafe", "negocio", "trabajo", "local"))
_HOME = frozenset(("home", "house", "casa"))
