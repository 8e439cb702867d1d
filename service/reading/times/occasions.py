"""What somebody has on a day: company, a wedding, a class. Such a day is told as a reason to hurry and is none asked for."""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.words.normalising import Word

_HAVE = frozenset((
    "have", "has", "having", "got", "hosting", "host", "throwing", "show", "showing", "tengo", "tenemos", "tiene", "hay",
    "habra", "viene", "vienen",
))  # fmt: skip
_OWN = frozenset((
    "i", "we", "my", "our", "ive", "im", "were", "kid", "kids", "son", "daughter", "wife", "husband", "church", "mi", "mis",
    "nuestra", "hijo", "hija", "esposo", "esposa",
))  # fmt: skip
_COME = frozenset(
    ("llega", "llegan", "viene", "vienen", "coming", "comes", "arrive", "arrives", "arriving", "visiting", "visit")
)
_EVENTS = frozenset((
    "party", "wedding", "funeral", "birthday", "barbacoa", "bbq", "cookout", "recital", "game", "graduation", "quinceanera",
    "fiesta", "boda", "bautizo", "posada", "drill", "inspection", "practice", "potluck", "concert", "exam", "finals", "final",
    "midterm", "test", "due", "carne", "carnita", "rehearsal", "baptism", "misa", "rosario", "velorio", "shower", "walkthrough",
    "quince", "cumple", "walk", "juego", "partido", "church", "mass", "meeting", "surgery",
))  # fmt: skip
_JOINS = frozenset(
    ("at", "on", "is", "s", "este", "el", "de", "es", "the", "this", "starts", "asada", "through", "la", "las", "a")
)
_LEADS = frozenset(("before", "by", "for", "until", "till", "antes", "para", "pa", "hasta", "after", "despues"))


def _is_of_event(words: Sequence[Word], at: int) -> bool:
    """“party sat”, “game at 6”, “la barbacoa de mañana”, “due tomorrow”, “company is coming friday”."""
    back = at - 1
    while back >= 0 and at - back <= _JOINED and words[back].form in _JOINS and not words[back + 1].brk:
        back -= 1
    if back < 0 or words[back + 1].brk:
        return False
    form = words[back].form
    if form in _EVENTS and (form != "test" or back):
        return not _LEADS & {word.form for word in words[max(0, back - 3) : back]}
    first = max(0, back - _JOINED - 1)
    who = {word.form for word in words[first : back + 1] if not word.brk or word is words[first]}
    return form in _COME and bool(who & _GUESTS)


_JOINED = 3
_GUESTS = frozenset((
    "company", "family", "familia", "inlaws", "suegros", "guests", "visitas", "invitados", "people", "gente", "relatives",
    "parents", "grandkids", "cousins", "primos", "nietos",
))  # fmt: skip
_OCCASIONS = frozenset((
    "party", "wedding", "funeral", "birthday", "luncheon", "brunch", "banquet", "bbq", "cookout", "reception", "company",
    "guests", "graduation", "shower", "baptism", "quinceanera", "recital", "soccer", "practice", "potluck", "supper", "showing",
    "inspection", "wake", "reunion", "fiesta", "boda", "bautizo", "visitas", "invitados", "cumpleanos", "velorio", "funerales",
    "xv", "posada", "people", "family", "inlaws", "place", "gente", "familia", "suegros", "primera",
))  # fmt: skip
_FREE = frozenset((
    "off", "free", "available", "open", "opening", "openings", "time", "libre", "disponible", "can", "could", "need", "until",
    "by", "before", "puede", "pueden", "antes", "para", "come", "send",
))  # fmt: skip
_WITHIN = 7
"""How far before the day what somebody has may stand, in words."""


def _comes_first(words: Sequence[Word], at: int) -> bool:
    """“llega mi familia el viernes”."""
    told = [word.form for word in words[max(0, at - 5) : at]]
    comes = next((place for place, form in enumerate(told) if form in ("llega", "llegan", "vienen", "viene")), None)
    return comes is not None and bool(_GUESTS & set(told[comes:]))


_OF_OURS = frozenset(("the", "my", "our", "la", "el", "mi", "nuestra", "a", "una", "un"))


def is_occasion(words: Sequence[Word], at: int) -> bool:
    """“we have the funeral luncheon Saturday”, “my kid has soccer tomorrow”: the day at *at* is that of an occasion."""
    behind = at + 2 if at + 1 < len(words) and words[at + 1].form in ("is", "es") else at + 1
    if behind + 1 < len(words) and words[behind].form in _OF_OURS and words[behind + 1].form in _EVENTS | _OCCASIONS:
        return behind == at + 2  # "saturday is the party"
    if _is_of_event(words, at) or _comes_first(words, at):
        return True
    first = at
    while first > max(0, at - _WITHIN) and words[first].brk != 2:
        first -= 1
    forms = [word.form for word in words[first:at]]
    has = next((place for place, form in enumerate(forms) if form in _HAVE), None)
    if has is None or _FREE & set(forms[has:]):
        return False
    by_us = bool(_OWN & set(forms[:has])) or forms[has] in ("tengo", "tenemos", "hay", "habra", "vienen", "hosting")
    return by_us and bool(_OCCASIONS & set(forms[has:]))
