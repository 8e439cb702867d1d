"""
Which dangers that a text tells are nobody's any more, or somebody else's: repaired long ago, gone with the old machine, only
supposed, or in another house.

Each asks for two things told together, so that a danger at hand is never taken for one that is over: "gas leak" and "in 1998"
and "fixed it"; "my sister in denver" and "mine".
"""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.words.clauses import Clause
from service.reading.words.marks import Marks
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word

_BACK_AGAIN = frozenset((
    "again", "still", "back", "yet", "returned", "returning", "otra", "sigue", "siguen", "volvio", "todavia", "aun",
))  # fmt: skip
_WHO_MAY = frozenset((
    "company", "co", "utility", "department", "plumber", "electrician", "technician", "tech", "compania", "gasera",
    "bomberos", "plomero", "electricista", "tecnico", "tecnicos", "vinieron", "ustedes", "guys",
))  # fmt: skip
_BY_WHO_MAY = frozenset(["gas_smell", "carbon_monoxide", "smoke"])
"""Dangers that only those who may can call settled; of the rest a repair is enough."""

_NEVER_SETTLED = frozenset(["fire", "injury"])
"""What has burned or hurt somebody stays told, whoever has been there."""

_EARLIEST, _LATEST = 1950, 2024
_SUPPOSED_WITHIN = 5
"""How far before "ever" its "if" may stand, in words."""

_EVER_WITHIN = 3
"""How far before the danger "ever" may stand: “if it ever did start smoking”."""


def settled_since(hit: Hit, words: Sequence[Word], marks: Marks) -> bool:
    """Whether “ya no”, “anymore” is said of *hit* after a repair: “ya no sale humo, quedó bien con lo que hizo el técnico”."""
    settled = marks.at("settled")
    if not settled or hit.payload.code in _NEVER_SETTLED:
        return False
    if hit.payload.code in _BY_WHO_MAY and not any(word.form in _WHO_MAY for word in words):
        return False
    return not _told_after(max(end for _, end in settled), words)


def settled_long_ago(hit: Hit, words: Sequence[Word], marks: Marks) -> bool:
    """Whether *hit* is told of a year gone by and was repaired then: “scorched outlet was replaced in 2019”."""
    first, last = _sentence_start(hit.start, words), _sentence_end(hit.start, words)
    if not any(is_year_gone(words, at) for at in range(first, last)):
        return False
    after = [end for start, end in marks.at("settled") if hit.start < end and start < last and end > hit.end]
    return bool(after) and not _told_after(max(after), words)


def found_safe(hit: Hit, words: Sequence[Word], marks: Marks) -> bool:
    """
    Whether *hit* is told of an earlier day and those who may have found it safe since: “smelled gas yesterday, the gas company
    came and said it's fine”. What smells now, or again, is not settled, whoever has been there.
    That the fire department came to look is no fire.
    """
    if hit.payload.code == "fire":
        return any(start < hit.end and hit.start < end for start, end in marks.at("checked_safe"))
    if hit.payload.code not in _FOUND_SAFE:
        return False
    after = [(start, end) for start, end in marks.at("checked_safe") if end > hit.end and start >= hit.start]
    if not after:
        return False
    start, end = min(after)
    told = words[: max(hit.end, start)]
    if not any(word.form in _THEN for word in told) or any(word.form in _NOW for word in told):
        return False
    return not _there_again(words[end:])


_FOUND_SAFE = frozenset(["gas_smell", "carbon_monoxide"])
_THEN = frozenset((
    "smelled", "smelt", "had", "was", "went", "yesterday", "ago", "earlier", "last", "olia", "olio", "olimos", "hubo",
    "habia", "tuvimos", "sono", "called", "reported", "llamo", "llame", "llamamos",
    "ayer", "anoche", "anteayer", "pasada", "pasado",
))  # fmt: skip
_NOW = frozenset(["smells", "smelling", "still", "now", "keeps", "huele", "sigue", "todavia", "ahora"])
_SMELLS = frozenset((
    "smell", "smells", "smelling", "smelled", "odor", "whiff", "stinks", "alarm", "beeping", "olor", "huele", "oler", "alarma",
    "again", "back", "returned", "came", "otra", "volvio", "vuelve", "regreso",
))  # fmt: skip
_NOT = frozenset(["wont", "won't", "not", "no", "cant", "can't", "doesnt", "doesn't", "isnt", "isn't", "sin"])


def _there_again(after: Sequence[Word]) -> bool:
    """Whether what stands *after* tells it anew; “still wont light” speaks of the machine."""
    for at, word in enumerate(after):
        if word.form in _SMELLS and not (at and after[at - 1].form in _NOT):
            return True
        follows = after[at + 1].form if at + 1 < len(after) else ""
        if word.form in ("still", "sigue", "todavia", "aun") and follows not in _NOT:
            return True
    return False


def of_a_machine_gone(hit: Hit, words: Sequence[Word], marks: Marks) -> bool:
    """Whether *hit* is told of a machine that was thrown out, and of none that took its place."""
    first, last = _sentence_start(hit.start, words), _sentence_end(hit.start, words)
    for start, end in marks.at("machine_gone"):
        if first <= start < last and not any(w.form in _SUCCESSOR for w in words[end : hit.start]):
            return not _told_after(end, words)
    return False


_SUCCESSOR = frozenset(["new", "now", "this", "nuevo", "nueva", "este", "esta", "ahora"])


def only_supposed(hit: Hit, words: Sequence[Word]) -> bool:
    """“if it ever leaks on the outlet”: a question of principle."""
    for at in range(max(0, hit.start - _EVER_WITHIN), min(hit.end + 1, len(words))):
        if words[at].form in _EVER and (at <= hit.start or hit.start + 2 >= at or at == hit.end):
            return any(w.form in ("if", "si") for w in words[max(0, at - _SUPPOSED_WITHIN) : at])
    before = [word.form for word in words[max(0, hit.start - _SUPPOSED_WITHIN) : hit.start]]
    much = next((at for at in range(len(before) - 2) if before[at : at + 3] == ["so", "much", "as"]), None)
    return much is not None and any(w.form in ("if", "si") for w in words[max(0, hit.start - 9) : hit.start])


_EVER = frozenset(["ever", "algun", "alguna", "llega", "llegara", "llegase", "llegan"])


def in_another_house(hit: Hit, words: Sequence[Word], marks: Marks, clause: Clause | None) -> bool:
    """
    Whether *hit* befell somebody elsewhere (“my sister in denver got shocked by hers”) and what is ours is told apart from it
    (“mine only leaves spots”).
    """
    if clause is None:
        return False
    first, last = _sentence_start(hit.start, words), _sentence_end(hit.start, words)
    if not any(first <= start < last and start < hit.end + 1 for start, _ in marks.at("elsewhere")):
        return False
    return any(start >= hit.end or start < first for start, _ in marks.at("ours"))


def others_have(hit: Hit, words: Sequence[Word], marks: Marks, clause: Clause) -> bool:
    """Whether the others named in *clause* have what *hit* tells: named before it, or as its place ("at the neighbor's")."""
    for start, _ in marks.at("others"):
        if clause.start - 1 <= start < clause.end and (start <= hit.start or _stands_at(start, words)):
            return True
    return not any(clause.start <= start < clause.end for start, _ in marks.at("others"))


def reaches_them(hit: Hit, marks: Marks) -> bool:
    """Whether *hit* ends with those it comes to: “it drips onto the neighbor”, “le cae agua al vecino” is our water."""
    return any(hit.start < start < hit.end <= end for start, end in marks.at("others"))


def _stands_at(at: int, words: Sequence[Word]) -> bool:
    return any(word.form in _PLACED for word in words[max(0, at - 2) : at])


_PLACED = frozenset(
    ["was", "were", "era", "fue", "at", "in", "of", "from", "by", "to", "de", "del", "con", "en", "a", "al"]
)


def runs_over_a_no(hit: Hit, words: Sequence[Word], denying: frozenset[str], passing: frozenset[str]) -> bool:
    """Whether what *hit* ends with is denied inside it: “breaker didn't trip, no burning” tells of no burnt breaker."""
    inside = range(hit.end - 2, hit.start, -1)
    if not hit.negated:
        # "switch is on, nothing buzzing"; not "outlet does nothing, hot to touch", where it tells of the machine
        return any(
            words[at].form in _NOTHING
            and words[at - 1].en != "do"
            and all(word.form in passing for word in words[at + 1 : hit.end - 1])
            for at in inside
        )
    for at in inside:
        between = words[at + 1 : hit.end - 1]
        if words[at].form in denying and (
            not between or words[at].form in _OF_THINGS or all(word.form in passing for word in between)
        ):
            return True
        if words[at].form not in passing and at < hit.end - 2:
            return False
    return False


_NOTHING = frozenset(["nothing", "nada"])
_OF_THINGS = frozenset(["no", "without", "sin", "ni", "nor", "zero"])
"""Denials of the thing that follows, whatever word stands between; "isn't water" says nothing of a smell behind it."""


def is_year_gone(words: Sequence[Word], at: int) -> bool:
    """Whether word *at* is a year gone by in which something was, and not when a machine was bought."""
    form = words[at].form
    if not (form.isdigit() and len(form) == 4 and _EARLIEST <= int(form) <= _LATEST):
        return False
    before = [word.form for word in words[max(0, at - 4) : at]]
    if len(before) > 1 and before[-1] in _SAYS_ABOUT and before[-2] in _IN:
        before.pop()
    return bool(before) and before[-1] in _IN and not any(form in _BOUGHT for form in before)


_BOUGHT = frozenset(["bought", "purchased", "got", "new", "made", "built", "compre", "compramos", "instalado"])

_IN = frozenset(["in", "en", "around", "del"])
_SAYS_ABOUT = frozenset(["like", "about", "como", "around"])
"""“back in like 2011”."""


def _told_after(at: int, words: Sequence[Word]) -> bool:
    return any(word.form in _BACK_AGAIN for word in words[at:])


def _sentence_start(at: int, words: Sequence[Word]) -> int:
    while at > 0 and words[at].brk != 2:
        at -= 1
    return at


def _sentence_end(at: int, words: Sequence[Word]) -> int:
    at += 1
    while at < len(words) and words[at].brk != 2:
        at += 1
    return at
