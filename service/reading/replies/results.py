"""How a check went: mended, not mended, or nothing yet."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Literal

from service.reading.model import Answer, Asked, Reading
from service.reading.replies.choices import plain
from service.reading.replies.summing_up import goes_on
from service.reading.words.asking import questions
from service.reading.words.hailing import hails
from service.reading.words.matching import Hit
from service.reading.words.normalising import CONTRASTS, Word


def result(asked: Asked, replies: Mapping[str, Hit], text: Reading, words: Sequence[Word]) -> Answer | None:
    """What *words* say of how the check went that was *asked* about; None where they do not say."""
    told = _seen(asked, text, words)
    if told is not None:
        return Answer(told, hedged=told == "fixed" and "hedged" in replies)
    intents = set(text.intents)
    if "not_fixed" in intents:
        return Answer("not_fixed")
    if "fixed" in intents:
        return Answer("fixed", hedged="hedged" in replies)
    said = plain(replies)
    if "at_it" in replies and (said is None or said.kind in ("yes", "dont_know")):
        return None
    if said is not None and said.kind == "yes":
        return Answer("fixed", hedged=said.hedged)
    if said is not None and (said.kind == "no" or (said.kind == "dont_know" and _does_not(words))):
        return Answer("not_fixed", hedged=said.hedged)
    if said is None and (text.symptoms or (goes_on(words) and not questions(words).marked)):
        return Answer("not_fixed")
    return said


def _seen(asked: Asked, text: Reading, words: Sequence[Word]) -> Literal["fixed", "not_fixed"] | None:
    """What the machine is seen to do now, whatever is said yes or no to beside it."""
    forms = [word.form for word in words]
    said = {*forms}
    if _in_vain(forms):
        return "not_fixed"
    faulty = any(found.code == asked.code for found in text.symptoms)
    if not faulty and _is_over(forms):
        return "fixed"
    denied = any(found.code == asked.code for found in text.denied)
    if denied and not faulty:
        plainly = "not_fixed" not in text.intents and said.isdisjoint(_ONCE_MORE)
        return "fixed" if plainly or said & _BY_NOW else None
    if _is_as_before(forms) or ("fixed" in text.intents and goes_on(words) and said.isdisjoint(CONTRASTS)):
        return "not_fixed"
    well = not text.symptoms and "not_fixed" not in text.intents
    better = _runs(forms) or _is_done(forms) or hails(words) or _does_again(asked, text, forms)
    return "fixed" if well and better else None


def _does_again(asked: Asked, text: Reading, forms: Sequence[str]) -> bool:
    """“glasses are clear again”, “ya hace hielos”: what is told not to be so of the machine was so before the check."""
    of_it = any(asked.appliance in (None, found.appliance) for found in text.denied)
    said = {*forms}
    return of_it and bool(said & (_AGAIN | _BY_NOW)) and said.isdisjoint(_ONCE_MORE | _NOT | CONTRASTS)


_BY_NOW = frozenset(("now", "ya", "ahora", "ahorita", "anymore", "since", "longer", "finally"))
_ONCE_MORE = frozenset(("still", "todavia", "sigue", "siguen"))


def _in_vain(forms: Sequence[str]) -> bool:
    """“pero ni así entra el agua”."""
    return any(forms[at] == "ni" and forms[at + 1] in ("asi", "con") for at in range(len(forms) - 1))


_ENDED = frozenset(("stopped", "quit", "dejo"))
_BAD = (
    "leak", "drip", "trip", "beep", "squeal", "squeak", "rattl", "buzz", "shak", "smell", "stink", "grind", "click", "flash",
    "blink", "bang", "thump", "whin", "overflow", "wobbl", "screech", "gote", "chorre", "truen", "tron", "tiembl", "brinc",
    "huel", "rechin", "pit", "zumb", "bot", "dispar", "parpade", "bail",
)  # fmt: skip
"""So begin the names of what no machine should do."""
_REACH = 3


def _is_over(forms: Sequence[str]) -> bool:
    """“no longer tripping”, “ya no se bota”, “quit leaking”: what it should not do is over."""
    for at, form in enumerate(forms):
        before = forms[at - 1] if at else ""
        ends = (before, form) in (("no", "longer"), ("ya", "no")) or form in _ENDED
        if ends and any(after.startswith(_BAD) for after in forms[at + 1 : at + 1 + _REACH]):
            return True
    return False


_SAME = frozenset(("code", "error", "thing", "noise", "result", "issue", "problem", "story", "as", "message", "leak"))
_AS_BEFORE = frozenset(("igual", "igualito", "igualita", "iguales"))


def _is_as_before(forms: Sequence[str]) -> bool:
    """“same code”, “come out same as they went in”, “salen igual de sucios”."""
    for at, form in enumerate(forms):
        after = forms[at + 1] if at + 1 < len(forms) else ""
        if form == "same" and (after in _SAME or not after) and forms[max(at - 2, 0) : at] != ["not", "the"]:
            return True
        if form in _AS_BEFORE and (not after or after in ("de", "que")) and "no" not in forms[max(at - 2, 0) : at]:
            return True
    return False


_WORKING = frozenset((
    "running", "working", "spinning", "turning", "going", "draining", "heating", "cooling", "drying", "filling", "freezing",
    "runnin", "workin", "jalando", "trabajando", "funcionando", "girando", "enfriando", "calentando", "secando",
))  # fmt: skip
_IS = frozenset(("is", "its", "shes", "hes", "theyre", "now", "esta", "ya", "anda"))
_AGAIN = frozenset(("again", "now", "finally", "shes", "hes", "ya", "otra"))
_NOT = frozenset(("not", "no", "isnt", "aint", "never", "stopped", "quit", "if", "until"))


def _runs(forms: Sequence[str]) -> bool:
    """“now its running”, “shes running”, “the disposal is turning again”."""
    if _AGAIN.isdisjoint(forms):
        return False
    return any(
        form in _WORKING
        and forms[at - 1] in _IS
        and _NOT.isdisjoint(forms[max(at - _REACH, 0) : at])
        and forms[at + 1 : at + 2] != ["to"]
        for at, form in enumerate(forms[1:], 1)
    )


_ENDED_UP = frozenset(("quedo", "kedo"))
_BADLY = frozenset((
    "igual", "igualito", "igualita", "lo", "peor", "mal", "asi", "en", "sin", "atorado", "atorada", "trabado", "trabada",
    "prendido", "prendida", "apagado", "apagada", "nada", "que", "agua", "con", "mojado", "mojada", "abierta", "la", "el",
    "un", "muerta", "muerto", "como", "llena", "lleno", "ahi", "pegado", "pegada", "corta", "chico", "chica",
))  # fmt: skip


def _is_done(forms: Sequence[str]) -> bool:
    """“ya le limpié el filtro y quedó”, “kedó al puro tiro”: not “quedó igual”."""
    return any(
        form in _ENDED_UP
        and not _BADLY & {*forms[at + 1 : at + 2]}
        and not {"no", "se", "me"} & {*forms[max(at - 2, 0) : at]}
        for at, form in enumerate(forms)
    )


_DO = ("a", "e", "an", "en", "o", "aron", "ieron")
_NO_VERB = frozenset((
    "la", "que", "de", "nada", "como", "donde", "porque", "cuando", "todavia", "nunca", "eso", "mucho", "ahora", "ahorita",
    "cuanto", "quien", "senora", "senorita", "oiga", "fijese", "esto", "ese", "este", "esa", "esta", "muchacho", "bien", "pero",
    "cosa", "tanto", "hasta", "ya", "para", "no", "yo", "usted", "cierto", "decirle", "gracias", "o", "una", "uno", "en", "pa",
))  # fmt: skip


def _does_not(words: Sequence[Word]) -> bool:
    """“no se destraba”, “ya no se mueve”: what it does not do, and no “no sé”."""
    for at in range(len(words) - 2):
        no, itself, verb = words[at : at + 3]
        if no.form == "no" and itself.form == "se" and not itself.accented and not (verb.brk or itself.brk):
            return verb.form.endswith(_DO) and verb.form not in _NO_VERB
    return False
