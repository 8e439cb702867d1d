"""
Machines that a text only mentions beside the one it is about: “the dryer is fine”, “I ran the disposal”, “my sister's freezer”.

A machine of which something is told, or that anybody wants seen to, is none of these.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence

from service.reading.faults.praising import WORKS
from service.reading.faults.stated import Statements
from service.reading.machines.belonging import ARTICLES
from service.reading.machines.mentions import Mention, Mentions
from service.reading.words.clauses import Clause
from service.reading.words.marks import Marks
from service.reading.words.matching import Hit
from service.reading.words.normalising import CONTRASTS, Word

_NOBODY_HERE = "wrong_number"
_WANTED = frozenset(["book", "cancel", "reschedule"])
"""Intents beside which a machine of which nothing is told may be the one that somebody shall see."""

_RUN = frozenset((
    "run", "ran", "running", "runs", "use", "using", "used", "uso", "usamos", "usar", "use", "prendo", "prendi", "prender",
    "pongo", "puse", "corro", "corri", "correr", "echo", "eche", "enciendo", "encendi",
))  # fmt: skip
_KIN = frozenset((
    "neighbor", "neighbour", "sister", "brother", "cousin", "friend", "coworker", "buddy", "aunt", "uncle", "law",
    "vecino", "vecina", "hermano", "hermana", "primo", "prima", "amigo", "amiga", "compadre", "comadre", "suegra", "suegro",
    "cunado", "cunada", "tia", "tio",
))  # fmt: skip
"""People who live elsewhere more often than not, and whose machines nobody here is asked to mend."""
_HAVE = frozenset(["has", "had", "have", "got", "bought", "owns", "tiene", "tenia", "compro", "trae"])
_THEIRS = frozenset(["her", "his", "their", "su", "sus"])
_OURS = frozenset(
    ["my", "our", "mine", "ours", "i", "we", "mi", "mis", "mia", "mio", "nuestra", "nuestro", "gave", "left"]
)
_MINE = frozenset(["mine", "mines", "ours", "mia", "mio", "mias", "mios"])
_OF_WHOM = frozenset(["de", "of", "mi", "my", "una", "un", "a", "la", "el", "su", "mis", "otra", "otro"])
_HANDLED = frozenset(["handled", "covered", "perfect", "beautiful"])
_SLIP_MOST = 5
"""A shorter text may correct itself and be taken for one who never wrote: “washer not dryer sorry”."""
_PRAISED_WITHIN = 6
_KIN_WITHIN = 6


def spoken_of(
    mentions: Mentions,
    stated: Statements,
    words: Sequence[Word],
    marks: Marks,
    clauses: Sequence[Clause],
    names: Sequence[Hit],
    intents: Collection[str],
    alarmed: bool,
) -> tuple[str, ...]:
    """
    The appliances of *mentions* that the text is about; *names*: every name in it, those left out of *mentions* too;
    beside a danger (*alarmed*) none is left out.
    """
    if alarmed:
        return mentions.appliances
    ours = _says_ours(words)
    told = {f.appliance for f in (*stated.symptoms, *stated.denied)}
    if _NOBODY_HERE in intents and len(words) > _SLIP_MOST:
        return tuple(code for code in mentions.appliances if code in told)
    kept = []
    for code in mentions.appliances:
        own = [m for m in mentions.found if m.appliance == code]
        if code in told or any(m.implied for m in own):
            kept.append(code)
            continue
        besides = bool(told & {*mentions.appliances} - {code})
        if besides and (_is_told_from(code, names, words) or any(_is_praised(m, words, marks) for m in own)):
            continue
        if all(
            (not ours and _is_anothers(m, words, clauses) and not _WANTED & {*intents})
            or (besides and _is_run(m, words))
            for m in own
        ):
            continue
        kept.append(code)
    return tuple(kept)


def _is_praised(mention: Mention, words: Sequence[Word], marks: Marks) -> bool:
    """“the dryer on top is fine”, “the microwave up above is working”, with nothing that turns from it."""
    fine = dict(marks.at("fine"))
    negators = {start for start, _ in marks.at("negators")}
    for at in range(mention.end, min(len(words), mention.end + _PRAISED_WITHIN)):
        if words[at].brk or at in negators or words[at].form in CONTRASTS:
            return False
        if at in fine or words[at].form in WORKS or words[at].form in _HANDLED:
            end = fine.get(at, at + 1)
            return end >= len(words) or words[end].brk > 0 or words[end].form not in CONTRASTS
    return False


def _is_run(mention: Mention, words: Sequence[Word]) -> bool:
    """“when we run the disposal”, “ya corrí el triturador”: what somebody did, while another machine fails."""
    at = mention.start - 1
    while at >= 0 and words[at].form in ARTICLES:
        at -= 1
    return at >= 0 and words[at].form in _RUN


def _is_told_from(code: str, names: Sequence[Hit], words: Sequence[Word]) -> bool:
    """“it's not the dryer, it's the washer”: a machine that is said not to be the one."""
    return any(hit.payload.code == code and _is_negated(hit.start, words) for hit in names)


def _is_negated(start: int, words: Sequence[Word]) -> bool:
    at = start - 1
    while at >= 0 and words[at].form in ARTICLES and not words[at + 1].brk:
        at -= 1
    if at < 0 or words[at + 1].brk:
        return False
    spanish = words[at].form == "es" and at > 0 and words[at - 1].form == "no" and not words[at].brk
    return words[at].en == "not" or words[at].form in ("not", "isnt") or spanish


def _is_anothers(mention: Mention, words: Sequence[Word], clauses: Sequence[Clause]) -> bool:
    """“my neighbor's washer”, “my brother in law has a dryer”, “la lavadora de mi hermana”."""
    clause = next((c for c in clauses if c.start <= mention.start < c.end), None)
    return (clause is not None and clause.others) or _of_kin_before(mention, words) or _of_kin_behind(mention, words)


def _says_ours(words: Sequence[Word]) -> bool:
    """“mine just squeaks”, “cuánto por la mía”, “a mí nomás me tarda”: beside another's, one of the customer's own."""
    return any(word.form in _MINE or (word.form == "mi" and words[at - 1].form == "a") for at, word in enumerate(words))


def _of_kin_before(mention: Mention, words: Sequence[Word]) -> bool:
    between: list[str] = []
    for at in range(mention.start - 1, max(-1, mention.start - 1 - _KIN_WITHIN), -1):
        if words[at + 1].brk == 2 or words[at].form in _OURS:
            return False
        form = words[at].form
        if _kin(form):
            own = form.endswith("s") and all(
                f in ("old", "new", "gas", "electric", "in", "law", "laws") for f in between
            )
            return own or bool(_HAVE & {*between}) or (bool(between) and between[0] in _THEIRS)
        between.append(form)
    return False


def _of_kin_behind(mention: Mention, words: Sequence[Word]) -> bool:
    behind = words[mention.end : mention.end + 4]
    if not behind or behind[0].form not in ("de", "of", "del") or behind[0].brk:
        return False
    return any(
        _kin(word.form) and all(w.form in _OF_WHOM | {"del"} for w in behind[:n]) for n, word in enumerate(behind)
    )


def _kin(form: str) -> bool:
    return form in _KIN or form.removesuffix("s") in _KIN
