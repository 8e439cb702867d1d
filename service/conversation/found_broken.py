"""What an owner check found where that is the fault itself (“gasket has a tear in it”): kept for the technician."""

from __future__ import annotations

from service.conversation.matters import bare_words
from service.conversation.state import TicketState
from service.conversation.underway import Turn
from service.reading.model import Reading

_DAMAGE = frozenset((
    "torn", "tear", "tears", "ripped", "rip", "rips", "split", "cracked", "crack", "cracks", "broken", "broke", "hole", "holes",
    "snapped", "bent", "worn", "shredded", "chewed", "frayed", "rotted", "rotten", "brittle", "crumbling", "crushed", "kinked",
    "warped", "busted", "gash", "roto", "rota", "rotos", "rotas", "rotura", "roturas", "rasgado", "rasgada", "rajado", "rajada",
    "rajadura", "quebrado", "quebrada", "agujero", "agujeros", "hoyo", "hoyos", "partido", "partida", "doblado", "doblada",
    "gastado", "gastada", "trozado", "trozada", "mordido", "mordida", "cuarteado", "cuarteada", "desgarrado", "desgarrada",
    "aplastado", "aplastada", "reseco", "reseca", "podrido", "podrida", "rompio", "quebro", "rajo",
))  # fmt: skip
_NOT = frozenset((
    "no", "not", "isnt", "arent", "wasnt", "doesnt", "dont", "didnt", "never", "without", "any", "nor", "sin", "ni", "ningun",
    "ninguna", "nada", "if", "si",
))  # fmt: skip
_REACH = 4
"""So many words before it a denial may stand: “not torn anywhere”, “i dont see any holes”."""
_ANSWERED = frozenset(("its", "it", "the", "there", "theres", "i", "my", "la", "el", "tiene", "se", "hay"))
"""Behind these a "no" answers whether it helped: “no its ripped”."""
_MENDED = frozenset(("replaced", "fixed", "taped", "glued", "swapped", "cambie", "arregle", "pegue", "changed"))


def is_broken(reading: Reading) -> bool:
    """Whether the text says that something is torn, cracked or the like, and not that it is not, or was."""
    words = bare_words(reading.text)
    if "?" in reading.text or not _MENDED.isdisjoint(words):
        return False
    first = 1 if words[:1] == ["no"] and (words[1:2] or [""])[0] in _ANSWERED else 0
    found = (at for at, word in enumerate(words) if word in _DAMAGE)
    return any(_NOT.isdisjoint(words[max(first, at - _REACH) : at]) for at in found)


def to_the_visit(turn: Turn, ticket: TicketState, check: str, reading: Reading) -> None:
    """Take what was found as the result of *check*, keep it for the technician, and end questions and checks."""
    turn.answered = True
    turn.put(asked=None)
    told = reading.text.strip()[:120]
    theories = ticket.theory_words if reading.theories else (*ticket.theory_words, told)[-4:]
    checks = {**ticket.checks, check: "not_fixed"}
    turn.change(
        ticket.key,
        checks=checks,
        theory_words=theories,
        stage="narrowing",
        just_send=True,
        questions_cap=ticket.questions,
    )
    turn.learned.add("theory")
    turn.because(
        "heard", f"The check {check} found the fault: nothing more is asked or tried, the technician looks.", check
    )
