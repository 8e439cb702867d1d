"""Other people who only hear, mind or judge what our machine does: it is no machine of theirs that is told of."""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.words.normalising import Word


def only_minds(words: Sequence[Word], at: int) -> bool:
    """“The neighbor complains”, “downstairs neighbors can hear it”, “neighbor says the pump is shot”: it is ours."""
    told = [word.form for word in words[at : at + 9]]
    said = (told[1:] if told[:1] in (["can"], ["is"], ["are"], ["se"]) else told)[:1]
    return any(form in _MINDS or (form in _SAYS and not _THEIRS & {*told}) for form in said)


_SAYS = frozenset(["says", "thinks", "swears", "figures", "reckons", "dice", "cree", "piensa"])
_THEIRS = frozenset(
    ["her", "his", "their", "she", "he", "they", "hers", "theirs", "su", "suya", "suyo", "ella", "ellos"]
)
_MINDS = frozenset((
    "complain", "complains", "complained", "complaining", "hear", "hears", "heard", "mad", "bangs", "knocks", "yells",
    "oye", "oyen", "queja", "quejan", "quejo", "reclama", "reclaman", "upset", "angry", "pissed",
))  # fmt: skip
