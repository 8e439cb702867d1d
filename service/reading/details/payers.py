"""Who pays, by grammar: the party nearest to a verb of paying in the same statement, unless it is denied or only asked."""

from __future__ import annotations

from collections.abc import Container, Sequence
from typing import NamedTuple

from service.reading.details.liable import (
    HAVE,
    HIM,
    OR,
    in_turn,
    is_either,
    only_one,
    who_is_unknown,
    whom_it_is_on,
)
from service.reading.words.normalising import CONTRASTS, NEGATIONS, Word

_PARTIES = {
    form: code
    for code, forms in (
        ("landlord", "caseros apartamentos departamentos apartments"),
        ("landlord", "landlord landlords landlady casero casera arrendador arrendadora administracion management complex"),
        ("tenant", "tenant tenants renter renters inquilino inquilina inquilinos inquilinas roommates"),
        ("owner", "cliente clientes iglesia"),
        ("owner", "owner owners homeowner homeowners client clients customer church dueno duena duenos"),
        ("home_warranty", "homewarranty"),
        ("maker_warranty", "maker manufacturer manufacturers mfr factory fabrica fabricante warranty garantia"),
        ("insurance", "insurance insurer carrier aseguranza aseguradora seguro"),
        ("me", "i we me us myself ourselves yo nosotros im ill id well were mio mi"),
    )
    for form in forms.split()
}  # fmt: skip
_PRONOUNS = frozenset(("he", "she", "they", "hes", "shes", "theyre", "theyll", "hell", "shell", "el", "ella", "ellos"))
_PAYS = frozenset((
    "pay", "pays", "paying", "payin", "paga", "pagan", "pagara", "pagar", "pagando", "pagaran", "settle", "settles",
    "reimburse", "reimburses", "reimbursing",
))  # fmt: skip
_PAYS_MYSELF = frozenset(("pago", "pagamos", "pagare", "pagaremos"))
_COVERS = frozenset((
    "cover", "covers", "covering", "covered", "approves", "approved", "approve", "authorized", "authorizes", "autorizo",
    "autoriza", "aprobo", "aprueba", "cubre", "cubren", "cubierto", "cubierta", "responsible", "responsable",
))  # fmt: skip
"""Said of paying only beside a party that is no "I" ("i covered the vent")."""
_CHARGED = frozenset((
    "bill", "charge", "cobran", "cobrenle", "cobrale", "cobren", "cobre", "cobrele", "cuenta", "bills", "factura",
    "cobrarle", "cobrar", "facturar", "invoice", "invoices",
))  # fmt: skip
"""Behind these stands whom it is charged to: “bill the owner”, “se lo cobran al casero”, “corre por cuenta del dueño”."""
_TO_WHOM = frozenset((
    "the", "my", "our", "to", "a", "al", "el", "la", "los", "de", "del", "it", "this", "mi", "goes", "should", "go",
    "mrs", "mr",
    "ms", "directly", "thru", "through", "on", "home", "lo", "se", "is", "will", "be", "so", "her", "his",
))  # fmt: skip
_RENTS = frozenset((
    "rent", "rents", "renting", "rento", "rentamos", "rentando", "inquilino", "inquilina", "inquilinos", "lease",
    "renter", "renters",
))  # fmt: skip
_NOT_PAID = frozenset(
    ("rent", "renta", "attention", "atencion", "you", "yall", "extra", "back", "off", "if", "si", "this", "that")
)
_DENIED = frozenset((
    "denied", "denies", "refused", "refuses", "expired", "nego", "rechazo", "negaron", "vencio",
    "rejected", "declined", "voided",
))  # fmt: skip
_REACH = 7
_DENIED_WITHIN = 4


_THIRD = frozenset(("paga", "pagan", "pagara", "cubre", "pays"))
"""Verbs whose subject is not "I"."""


class Payer(NamedTuple):
    """Who is said to pay (None when nobody is), and who is said not to."""

    who: str | None
    denied: frozenset[str]


def payer_told(words: Sequence[Word], asked_about: Container[int]) -> Payer:
    """Who pays, as told in *words*; *asked_about*: places of what is only asked."""
    forms = [word.form for word in words]
    said = set(forms)
    parties = [_named(words, at) for at in range(len(words))] if said & OR or "on" in said or said & HIM else []
    if said & OR and is_either(words, parties, _VERBS):
        return Payer(None, frozenset(_PARTIES.values()))  # "does the warranty cover it or is it on me"
    if not (said & _PAYS or said & _PAYS_MYSELF or said & _COVERS or said & _CHARGED or said & _DENIED or "on" in said):
        return Payer(None, frozenset())
    if who_is_unknown(forms, _VERBS):
        return Payer(None, frozenset(_PARTIES.values()))  # "the lease says he covers it so idk who you bill"
    speaker = _speaker(forms)
    who: str | None = None
    told: list[int] = []
    verbs: list[int] = []
    denied: set[str] = set()
    for at, form in enumerate(forms):
        if at in asked_about or form not in _VERBS:
            continue
        party = _party(words, at) or _his(forms, at, speaker, parties)
        if party is None or (party == "me" and form in _COVERS):
            continue
        verbs.append(at)
        code = speaker if party == "me" else _of_owner(party, forms)
        if form in _DENIED or _negated(words, at):
            denied.add(code)
        elif (
            (who is None or _turned_since(words, told[-1], at))
            and not _supposed(words, at)
            and not (set(forms[at + 1 : at + 2]) & _NOT_PAID)
        ):
            who = code
            told.append(at)
    if len(verbs) > 1 and {"or", "o"} & set(forms[verbs[0] : verbs[-1]]):
        had = HAVE & set(forms[: verbs[0]])  # "we have a home warranty, do you bill them or do i pay"
        return Payer(None, frozenset() if had else frozenset(_PARTIES.values()))
    on = whom_it_is_on(words, parties) if "on" in said and said & _OF_MONEY else None
    if on is not None:
        who = speaker if on == "me" else _of_owner(on, forms)
    return Payer(who or in_turn(words, speaker, denied, _VERBS), frozenset(denied))


_OF_MONEY = _PAYS | _CHARGED | {"cost", "lease", "landlord", "owner", "invoice", "paid", "rent", "renta", "casero"}


def _his(forms: Sequence[str], at: int, speaker: str, parties: Sequence[str | None]) -> str | None:
    """Of whom "bill him" and, told by a tenant, "el señor paga" is said."""
    beside = HIM & {*forms[max(0, at - 3) : at], *forms[at + 1 : at + 3]}
    if forms[at] in _CHARGED and beside:
        others = [party for party in parties[:at] if party not in (None, "me", "owner")]
        return others[-1] if others else "landlord" if speaker == "tenant" else None if beside == {"them"} else "owner"
    rents = speaker == "tenant" and forms[at] in _THIRD and bool(_SIR & set(forms[max(0, at - 4) : at]))
    return "landlord" if rents else None


_SIR = frozenset(("senor", "senora", "mr", "mrs", "don", "dona", "he", "she", "el", "ella"))


def me_instead(words: Sequence[Word]) -> str | None:
    """Whoever writes, in an answer that says so and that somebody else does not pay: “not the landlord, me”."""
    parties = [_named(words, at) for at in range(len(words))]
    refused = any(parties[at] not in (None, "me") and _refuses(words, at) for at in range(1, len(words)))
    me = any(word.form in ("me", "us", "yo", "myself", "nosotros") for word in words)
    return _speaker([word.form for word in words]) if refused and me else None


def _refuses(words: Sequence[Word], at: int) -> bool:
    near = {word.form for word in words[max(0, at - 2) : at]}
    return "not" in near or ("no" in near and bool({"el", "la", "mi"} & near))


def party_named(words: Sequence[Word]) -> str | None:
    """The one party that an answer to the question for it names: “landlady is”, “its the claim, adjuster said ok”."""
    return only_one(words, [_named(words, at) for at in range(len(words))])


_INSURERS = frozenset(("adjuster", "claim", "policy", "reclamo", "ajustador", "poliza", "siniestro"))
_VERBS = _PAYS | _PAYS_MYSELF | _COVERS | _CHARGED | _DENIED


_LETS = frozenset(("rent", "renting", "lease", "leasing"))


def _speaker(forms: Sequence[str]) -> str:
    """What "I" stands for: the landlord who says so, a tenant, or the owner; who has a landlord is a tenant."""
    for at, form in enumerate(forms):
        told_so = at and forms[at - 1] in ("the", "a", "el", "la", "soy", "im")
        if _PARTIES.get(form) == "landlord" and told_so and {"im", "am", "soy", "as"} & set(forms[max(0, at - 3) : at]):
            return "landlord"
    if any(form in _LETS and "out" in forms[at + 1 : at + 4] for at, form in enumerate(forms)):
        return "landlord"
    if any(form in ("i", "we") and forms[at + 1 : at + 2] == ["own"] for at, form in enumerate(forms)):
        return "owner"
    of_tenants = any(_PARTIES.get(form) == "tenant" for form in forms)
    himself = any(
        _PARTIES.get(form) == "tenant"
        and ({"im", "am", "soy", "somos"} & set(forms[max(0, at - 3) : at]) or forms[at - 1] == "us")
        for at, form in enumerate(forms)
    )
    if himself or (set(forms) & _RENTS and not of_tenants):
        return "tenant"
    if of_tenants:
        return "landlord"
    return "tenant" if any(_PARTIES.get(form) == "landlord" and form not in _NO_LANDLORD for form in forms) else "owner"


_NO_LANDLORD = frozenset(("complex", "management", "administracion", "apartments", "apartamentos", "departamentos"))
"""Places and firms; only of a person that one rents from the speaker is surely a tenant."""


def _of_owner(party: str, forms: Sequence[str]) -> str:
    """An owner is the landlord of those who rent; a "dueño" who is not "yo" or kin is that of who lives there."""
    if party != "owner":
        return party
    rents = bool(set(forms) & _RENTS) or _speaker(forms) == "tenant"
    of_the_house = any(
        (form in _OWNER_ES and not _MYSELF & set(forms[max(0, at - 3) : at + 4]) and _KIN.isdisjoint(forms))
        or (form == "owner" and forms[at + 1 : at + 2] in (["del"], ["de"]))
        for at, form in enumerate(forms)
    )
    return "landlord" if rents or of_the_house else "owner"


_OWNER_ES = frozenset(("dueno", "duena", "duenos"))
_MYSELF = frozenset(("soy", "somos", "yo", "im", "am", "ella"))
_KIN = frozenset(("suegra", "suegro", "suegros", "mama", "papa", "papas", "abuela", "abuelo"))


def _party(words: Sequence[Word], at: int) -> str | None:
    """The party of the verb at *at*: behind it where it is charged to somebody, else the nearest before it."""
    form = words[at].form
    if form in _PAYS_MYSELF:
        return "me"
    if form in _CHARGED and words[at - 1].form in ("in", "of", "a", "no", "la", "se"):
        return None
    if form in _CHARGED:
        return _behind(words, at, bare=False)
    if not words[at].brk and form in _PAYS and words[at + 1 : at + 2] and words[at + 1].form in ("yo", "nosotros"):
        return "me"  # "estamos pagando nosotros"
    third = form in _THIRD or [word.form for word in words[max(0, at - 2) : at]] in (["va", "a"], ["van", "a"])
    turned = _behind(words, at, bare=True) if third else None
    if turned not in (None, "me"):
        return turned
    heard_pronoun = third
    for back in range(at - 1, -1, -1):
        if at - back > _REACH and not heard_pronoun:
            return None
        if words[back + 1].brk == 2 and not (heard_pronoun and not third):
            return None
        heard_pronoun = heard_pronoun or words[back].form in _PRONOUNS
        party = _named(words, back)
        if party is not None and not (party == "me" and heard_pronoun):
            return party
    return None


def _behind(words: Sequence[Word], at: int, *, bare: bool) -> str | None:
    for ahead in range(at + 1, min(len(words), at + 6)):
        if words[ahead].brk:
            return None
        party = _named(words, ahead)
        if party is not None and not (words[ahead].form in ("i", "we", "yo", "mi") and bare):
            return party
        if words[ahead].form not in _TO_WHOM:
            return None
    return None


def _named(words: Sequence[Word], at: int) -> str | None:
    form = words[at].form
    before = words[at - 1].form if at else ""
    if form == "manager" and before in ("property", "apartment", "building"):
        return "landlord"
    if form == "mi":
        return None
    if form == "lord" and before == "land":
        return "landlord"
    if form in _INSURERS and before not in ("warranty", "plan"):
        return "insurance"
    if form == "casa" and at > 1 and before == "la" and words[at - 2].form in ("de", "garantia"):
        return None
    party = _PARTIES.get(form)
    if party == "maker_warranty" and form in ("warranty", "garantia"):
        home = {"home", "company", "plan", "extended", "casa", "extendida", "hogar", "house", "homeowners"}
        return "home_warranty" if home & {word.form for word in words[max(0, at - 2) : at + 4]} else party
    if party == "insurance" and form == "seguro" and before not in ("el", "mi", "del", "al", "su"):
        return None
    return party


def _negated(words: Sequence[Word], at: int) -> bool:
    first = at
    while first > max(0, at - _DENIED_WITHIN) and not words[first].brk:
        first -= 1
    if any(word.form in NEGATIONS or word.en == "not" or word.form == "amnt" for word in words[first:at]):
        return True
    return [word.form for word in words[at + 1 : at + 2]] == ["nada"]


def _turned_since(words: Sequence[Word], last: int, at: int) -> bool:
    """Whether a "but" stands between two verbs of paying: what follows it counts."""
    return any(word.form in CONTRASTS for word in words[last:at])


def _supposed(words: Sequence[Word], at: int) -> bool:
    first = at
    while first > 0 and words[first].brk == 0:
        first -= 1
    return any(
        (word.form in _SUPPOSING and not word.accented)
        or (word.form in ("who", "quien", "whos") and (at == 0 or word.brk == 2))
        for at, word in enumerate(words[first:at], start=first)
    )


_SUPPOSING = frozenset(("if", "si", "whether", "does", "do", "what", "why", "how", "cuanto"))
