"""Whose a bill is by other words than those of paying: “it's on me”, “the landlord or us?”, a party named and no more."""

from __future__ import annotations

from collections.abc import Container, Sequence

from service.reading.words.normalising import NEGATIONS, Word

OR = frozenset(("or", "o"))
"""Between two parties these ask which of them pays."""
HIM = frozenset(("him", "her", "them"))
"""One of whom was spoken before."""
_ME = frozenset(("i", "me", "us", "we", "yo", "nosotros"))
HAVE = frozenset(("have", "has", "got", "hold", "tengo", "tenemos", "under", "bought"))
"""Who has a plan tells of it, whatever else is asked."""
_EITHER_WITHIN, _ME_WITHIN = 8, 5
_THIS = frozenset(("its", "thats", "is", "it", "that", "this", "all", "bill", "be", "repair"))
_NOT_WHO = frozenset(("not", "no", "never", "wont", "isnt", "doesnt", "tampoco"))

Parties = Sequence[str | None]
"""The party that each word names, if it names one."""


def is_either(words: Sequence[Word], parties: Parties, verbs: Container[str]) -> bool:
    """“covered by the home warranty or am I paying”, “lo cubre el seguro o lo pago yo”: asked, and not told."""
    for at in range(1, len(words)):
        if words[at].form not in OR or not _ME & {word.form for word in words[at + 1 : at + 1 + _ME_WITHIN]}:
            continue
        before = range(max(0, at - _EITHER_WITHIN), at)
        paid = any(word.form in verbs for word in words[max(0, at - _EITHER_WITHIN) : at + _EITHER_WITHIN])
        had = any(word.form in HAVE for word in words[:at])  # "we have a home warranty, do you bill them or do i pay"
        if paid and not had and any(parties[near] not in (None, "me") for near in before):
            return True
    return False


def whom_it_is_on(words: Sequence[Word], parties: Parties) -> str | None:
    """“it's on me”, “the bill is on the landlord”."""
    for at in range(1, len(words) - 1):
        if words[at].form != "on" or words[at - 1].form not in _THIS or words[at].asks:
            continue
        behind = at + 2 if words[at + 1].form in ("the", "my", "our") else at + 1
        if behind >= len(words):
            return None
        last = behind + 1 >= len(words) or words[behind + 1].brk or words[behind + 1].form in ("not", "this", "so")
        if last and (words[behind].form in ("me", "us") or behind == at + 2):
            return parties[behind]
    return None


def only_one(words: Sequence[Word], parties: Parties) -> str | None:
    """The one party that is named, apart from who writes; None where one is named as not paying, or several are."""
    named = {
        party
        for at, party in enumerate(parties)
        if party not in (None, "me") and not _NOT_WHO & {word.form for word in words[max(0, at - 2) : at + 3]}
    }
    return next(iter(named)) if len(named) == 1 else None


_UNSURE = frozenset(("idk", "know", "sure", "dunno", "unsure", "se", "claro"))
_AM_I_TO = frozenset(("do", "should", "would", "am"))


def who_is_unknown(forms: Sequence[str], verbs: Container[str]) -> bool:
    """Whether it is said not to be known who pays, or asked: “so idk who you bill”, “who do you charge”."""
    for at, form in enumerate(forms):
        if form in ("who", "quien") and any(near in verbs for near in forms[at + 1 : at + 4]):
            asks = bool(forms[at + 1 : at + 2]) and forms[at + 1] in _AM_I_TO
            if asks or _UNSURE & set(forms[max(0, at - 3) : at]):
                return True
    return False


def _i_do_instead(words: Sequence[Word], verbs: Container[str]) -> bool:
    """Whether whoever writes takes over what another does not: “the agency doesn't cover, I do”."""
    for at in range(2, len(words) - 1):
        if words[at].form in ("i", "we") and words[at].brk and words[at + 1].form in ("do", "will"):
            before = [word.form for word in words[max(0, at - _EITHER_WITHIN) : at]]
            denies = any(w.form in NEGATIONS or w.en == "not" for w in words[max(0, at - _EITHER_WITHIN) : at])
            last = at + 2 == len(words) or words[at + 2].brk > 0
            if last and any(form in verbs for form in before[-3:]) and denies:
                return True
    return False


def in_turn(words: Sequence[Word], speaker: str, denied: Container[str], verbs: Container[str]) -> str | None:
    """Who pays what another does not: who writes and takes it over, the landlord of a tenant who does not."""
    if _i_do_instead(words, verbs):
        return speaker
    return "landlord" if speaker == "tenant" and "tenant" in denied else None
