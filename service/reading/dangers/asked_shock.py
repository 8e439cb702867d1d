"""
Whether one would get a shock, asked before anybody did: “le quito el agua o me da toques”, “would i get shocked if i scoop it
out”. Who tells of one besides (“me dio toques ayer, es normal?”) is heard.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from service.reading.dangers.source_words import listed
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word
from service.reading.words.sentences import sentence_of

_REACH = 14
_MAY_I = listed("bien puedo podemos puede seguro conviene debo can could safe ok okay should")
_OR = listed("o or")
_GIVES = listed("da dan dara daran daria va van me le nos no will would it ill i get gonna going to a dar")
_IF = listed("si if")
_TOLD = listed(
    "dio dieron daba dado senti sentimos ayer anoche siempre cada otra sigue vuelve ya again still keeps always already "
    "yesterday cuando when got felt shocked zapped did does happened paso"
)
_WOULD = listed("would will could can might podria puede va peligro riesgo chance")
_I = listed("i we me nos le a de get be")


def asked_whether_it_shocks(hit: Hit, words: Sequence[Word]) -> bool:
    """Whether *hit* only asks if something that is not yet done would give a shock."""
    if hit.payload.code != "shock":
        return False
    first, last = sentence_of(hit, words, _REACH)
    own = {*range(hit.start, hit.end)}
    if any(word.form in _TOLD for n, word in enumerate(words) if n not in own):
        return False
    if any(word.form in _TOLD - {"shocked", "zapped"} for word in words[hit.start : hit.end]):
        return False
    return _or_does_it(hit, words, first) or _or_not(hit, words, first, last) or _would_it(hit, words, first, last)


def _or_does_it(hit: Hit, words: Sequence[Word], first: int) -> bool:
    """“ta bien o me da toques”: an “or” right before it, and before that whether something may be done."""
    at = hit.start
    while at > first and words[at].form not in _OR and (at == hit.start or words[at].form in _GIVES):
        at -= 1
    if words[at].form not in _OR:
        return False
    return any(word.form in _MAY_I for word in words[first:at])


def _or_not(hit: Hit, words: Sequence[Word], first: int, last: int) -> bool:
    """“si le quito el agua me da toques o no”: the sentence ends there."""
    behind = [word.form for word in words[hit.end : last]]
    asked_if = any(word.form in _IF for word in words[first : hit.start])
    return asked_if and behind in (["o", "no"], ["or", "not"])


def _would_it(hit: Hit, words: Sequence[Word], first: int, last: int) -> bool:
    """“would i get shocked if i …”, “no me va a dar toques”, “hay peligro de que me dé toques”."""
    near = words[max(first, hit.start - 4) : hit.end]
    if not any(a.form in _WOULD and (b.form in _I) for a, b in pairwise(near)):
        return False
    if any(word.form in ("va", "peligro", "riesgo") for word in near):
        return True
    return any(word.form in _IF for word in words[hit.end : last])
