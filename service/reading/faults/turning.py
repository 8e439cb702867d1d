"""What works, though a load takes long by it or it goes on and on: “it heats but takes three rounds”, “spins and spins”."""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.words.normalising import Word


def takes_to_dry(words: Sequence[Word], but: int) -> bool:
    """“it heats but takes three rounds”: so long a load takes, though the heat is there."""
    behind = {word.form for word in words[but + 1 : but + 9]}
    return not _TAKES.isdisjoint(behind) and not _A_LOAD.isdisjoint(behind)


_TAKES = frozenset(["takes", "take", "tarda", "tardan"])
_A_LOAD = frozenset((
    "dry", "rounds", "cycles", "runs", "loads", "load", "secar", "secarse", "seca", "vueltas", "ciclos", "tandas",
    "cargas", "carga", "ropa", "clothes", "towels", "toallas",
))  # fmt: skip

_AND = frozenset(["and", "n", "y", "e"])
_TURNING = frozenset(["turns", "spins", "tumbles", "round", "around", "gira", "giran", "vueltas", "vuelta"])


def turned_again(words: Sequence[Word], start: int, end: int) -> int:
    """Where “spins and spins”, “da vueltas y da vueltas” ends: what turns is not said to turn too much."""
    said = [word.form for word in words[start:end]]
    while said[-1] in _TURNING and end < len(words) and words[end].form in _AND:
        if [word.form for word in words[end + 1 : end + 1 + len(said)]] != said:
            break
        end += 1 + len(said)
    return end


_TO_IT, _NO_DEED = frozenset(["ya", "le", "les", "yo"]), frozenset(["que", "de", "se", "me", "le", "si", "ni"])


def somebody_does(form: str, following: str) -> bool:
    """“la luz prende | le subí al número”, “salen limpios | ya limpié el filtro”: what follows a function is a deed."""
    return form in _TO_IT and following.endswith(("e", "i")) and following not in _NO_DEED


_JUST = frozenset(("just", "nomas", "solo", "solamente"))
_FAILS = frozenset((
    "no", "not", "wont", "doesnt", "dont", "cant", "isnt", "aint", "never", "hace", "tiene", "trae", "tarda", "suena",
    "huele", "gotea", "tira",
))  # fmt: skip


def all_but(words: Sequence[Word], end: int, last: int) -> tuple[int, bool]:
    """
    Where the statement of a function that ends before *end* is over, *last* at most, and whether only something else fails:
    “it spins ok its just not draining”, “sí enfría nomás hace mucho ruido”.
    """
    for at in range(end, min(end + 3, last - 1)):
        if words[at].form in _JUST and words[at + 1].form in _FAILS:
            return at, True
    return last, False
