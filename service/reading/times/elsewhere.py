"""Where somebody is until an hour or a day: “im at work til 6”, “ando fuera hasta el viernes”, “i get off at 5”."""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.words.normalising import Word

_UNTIL = frozenset(("til", "till", "until", "hasta", "asta"))
_ELSEWHERE = frozenset((
    "work", "working", "trabajo", "trabajamos", "trabajando", "school", "class", "classes", "clase", "clases",
    "escuela",
    "asleep", "sleep", "dormido", "dormida", "busy", "ocupado", "ocupada", "gone", "away", "town", "state", "fuera", "nights",
    "shift", "turno", "viaje", "teach", "teaching", "jale", "hospital", "ocupados", "vacation", "vacaciones", "traveling",
))  # fmt: skip
_OF_US = frozenset((
    "i", "im", "we", "were", "ill", "estoy", "estamos", "ando", "andamos", "trabajo", "trabajamos", "tengo", "voy", "gotta",
))  # fmt: skip
_BARELY = frozenset(("out", "gone", "away", "working", "work", "fuera", "busy"))
"""“out of town until monday”, without an "I"."""
_BARE = 3
_AWAY_WITHIN = 7


def is_away_until(words: Sequence[Word], at: int) -> bool:
    """“im at work til 6”, “ando fuera hasta el viernes”: whoever says so is there from then on."""
    back = at - 1
    while back >= 0 and words[back].form in ("the", "el", "la", "las", "like", "about", "this", "next"):
        back -= 1
    if back < 0 or words[back].form not in _UNTIL:
        return False
    told = _breath(words, back)
    bare = words[max(0, back - _BARE) : back]
    return bool(_ELSEWHERE & told and (_OF_US & told or any(word.brk == 2 and word.form in _BARELY for word in bare)))


def _breath(words: Sequence[Word], at: int) -> set[str]:
    """The words before *at* that are said in one breath with it."""
    first = at
    while first > max(0, at - _AWAY_WITHIN) and words[first].brk != 2:
        first -= 1
    return {word.form for word in words[first:at]}


_LEAVES = frozenset(("salgo", "salimos", "salga"))
_OFF = frozenset(("get", "gets", "im", "i", "we", "were", "getting"))


def is_let_out(words: Sequence[Word], back: int) -> bool:
    """“salgo del trabajo a las 6”, “i get off at 5”: free from then on; *back*: the word before the hour."""
    told = _breath(words, back)
    return bool(_LEAVES & told or ("off" in told and _OFF & told and ("work" in told or "get" in told)))
