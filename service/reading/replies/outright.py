"""What a text states outright of what was asked, beside its yes or no."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from service.reading.model import Answer, Asked, Reading
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word


def is_another_answer(hit: Hit, asked: Asked | None) -> bool:
    """A single word that would answer another question than the one that is asked ("front", "hum")."""
    answers = hit.payload.kind == "observation" and hit.payload.role.startswith("=") and hit.end - hit.start == 1
    return answers and asked is not None and asked.code != hit.payload.code


def within(hit: Hit | None, words: Sequence[Word], text: Reading, code: str | None) -> bool:
    """Whether a "no" belongs to the words that tell what was asked: “no lights no nothing”."""
    if hit is None:
        return False
    at = words[hit.start].start
    return any(found.code == code and found.start <= at < found.end for found in text.symptoms)


def stated_outright(asked: Asked, text: Reading) -> Answer | None:
    """The asked code said outright: “it drains fine” to a question about no_drain is a no."""
    if asked.code is None:
        return None
    if any(f.code == asked.code for f in text.symptoms) or any(h.code == asked.code for h in text.hazards):
        return Answer("yes")
    if any(f.code == asked.code for f in text.denied) or any(h.code == asked.code for h in text.denied_hazards):
        return Answer("no")
    for seen in text.observations:
        if seen.id == asked.code and seen.value == "yes":
            return Answer("yes", hedged=seen.hedged)
        if seen.id == asked.code:
            return Answer("no", hedged=seen.hedged) if seen.value == "no" else Answer("value", seen.value)
    return None


_LEADING = frozenset((
    "it", "its", "she", "he", "they", "that", "does", "do", "is", "dear", "sir", "maam", "not", "wont", "doesnt", "dont",
    "isnt", "just", "still", "si", "se", "no", "me", "la", "lo", "le", "ya", "senora", "senor", "joven", "hon", "never",
))  # fmt: skip
"""What may stand between a yes or no and the function that it repeats."""
_NEGATED = frozenset(("not", "wont", "doesnt", "dont", "isnt", "no", "never"))
_PLAIN_NO = frozenset(("no", "nope", "nah", "nop"))
_FAILS = ("no_", "dead", "burner_dead", "fan_dead", "light_out")
"""Symptoms that are asked after by what should happen: “no it doesn't heat” says that it is so."""


def repeats_it(asked: Asked, text: Reading, replies: Mapping[str, Hit], words: Sequence[Word]) -> bool:
    """“Yes it heats” to whether it does not: the function that is repeated right behind the yes or no tells which."""
    hit = replies.get("yes") or replies.get("no")
    if hit is None or hit.start > 0:
        return False
    told = [f for f in (*text.symptoms, *text.denied) if f.code == asked.code]
    for at in range(1, len(words)):
        if any(f.start <= words[at].start < f.end for f in told):
            negated = any(word.form in _NEGATED for word in words[1:at])
            return words[0].form not in _PLAIN_NO or (negated and str(asked.code).startswith(_FAILS))
        if words[at].brk == 2 or words[at].form not in _LEADING:
            return False
    return False


_WONT = frozenset(("wont", "cant", "refuses"))
_BARE = frozenset(
    ("do", "does", "be", "say", "tell", "see", "hear", "find", "it", "i", "help", "get", "reach", "check")
)


def by_its_verb(asked: Asked, replies: Mapping[str, Hit], words: Sequence[Word]) -> Answer | None:
    """
    Asked whether it fails, what is told with a verb of its own: “nope wont budge” says that it does, “it does go down but
    slow” that it does not.
    """
    if not str(asked.code).startswith(_FAILS):
        return None
    no, yes = replies.get("no"), replies.get("yes")
    if no is not None and no.start == 0 and words[0].form in _PLAIN_NO:
        at = no.end + (no.end < len(words) and words[no.end].form in ("it", "she", "he"))
        if at + 1 < len(words) and words[at].form in _WONT and words[at + 1].form not in _BARE:
            return Answer("yes")
    if yes is not None and yes.start == 0 and words[0].form == "it" and words[yes.end - 1].form == "does":
        return None if _ends_there(yes.end, words) else Answer("no")
    return None


_NO_VERB = frozenset(
    ("not", "no", "the", "that", "this", "it", "every", "all", "and", "but", "when", "yes", "indeed", "now")
)


def _ends_there(at: int, words: Sequence[Word]) -> bool:
    return at >= len(words) or words[at].brk > 0 or words[at].form in _NO_VERB


_HAVE = frozenset(("have", "has", "got", "theres", "there", "tengo", "tenemos", "tiene", "hay"))
_LATELY = frozenset((
    "new", "newer", "brand", "just", "recent", "recently", "installed", "put", "replaced", "changed", "swapped", "last", "ago",
    "nuevo", "nueva", "recien", "pusieron", "puse", "pusimos", "cambiaron", "cambie", "instalaron", "instale", "acaban",
    "apenas", "hace", "before", "since", "after", "when", "ayer", "yesterday",
))  # fmt: skip


def only_has_it(asked: Asked, words: Sequence[Word]) -> bool:
    """“yes i have a disposal”, asked whether a new one was put in: that there is one, and nothing of when."""
    if not str(asked.code).startswith("new_"):
        return False
    said = {word.form for word in words}
    return bool(_HAVE & said) and not _LATELY & said and not any(word.form[0].isdigit() for word in words)
