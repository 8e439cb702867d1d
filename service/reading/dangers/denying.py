"""
When a hazard is said not to be: by a "no" right before it, and not by one that answers a question, belongs to the machine or
speaks of what was there and has gone.
"""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.dangers.settling import settled_since
from service.reading.words.clauses import Clause
from service.reading.words.marks import Marks
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word

DENYING = frozenset((
    "no", "not", "dont", "doesnt", "didnt", "isnt", "arent", "aint", "wasnt", "havent", "hasnt", "never",
    "without", "zero", "none", "sin", "ni", "nunca", "nor", "neither",
))  # fmt: skip
"""Words that can deny a hazard. "won't" and "can't" cannot: they belong to the machine ("wont start smells burnt")."""

_NOBODY = frozenset(["nobody", "noone", "nothing", "nadie", "ninguno", "nada"])

_AFTER_ANSWER = frozenset(
    ["and", "but", "it", "its", "i", "im", "the", "my", "there", "theres", "now", "also", "y", "pero", "ahora"]
)
"""After these a "no" that opens a text answers what was asked and denies nothing of what follows."""

_LISTED = frozenset(["or", "nor", "and", "o", "ni", "y"])
_ADDED = frozenset(["and", "y"])
_HAPPENS = frozenset(
    [
        "is",
        "was",
        "are",
        "coming",
        "comes",
        "came",
        "started",
        "keeps",
        "everywhere",
        "from",
        "out",
        "sale",
        "empezo",
        "del",
    ]
)
"""“no gas smell and smoke is coming out”: the verb makes a statement of its own."""

_DENIED_WITHIN = 8
_SENSED_ONLY = frozenset(["smell", "smells", "odor", "noise", "sound", "olor", "ruido", "olores", "ruidos"])
"""“no smell or smoke”: what stands before the "or" is denied with it."""


def covers(denial: Hit, sign: Hit, words: Sequence[Word]) -> bool:
    """
    Whether *denial* holds all of *sign*, or, beginning with its "no", the end: "the cooler is warm. no chemical smell";
    or tells where the outlet is: "puddle in front, outlet is up the wall and dry".
    """
    if denial.start <= sign.start:
        return sign.end <= denial.end
    if not denial.start < sign.end <= denial.end:
        return False
    apart = any(words[at].brk for at in range(max(sign.start + 1, denial.start - 1), denial.start + 1))
    return words[denial.start].form in DENYING | _NOBODY or (apart and sign.payload.code == "water_near_power")


def denied_before(
    hit: Hit, words: Sequence[Word], marks: Marks, clause: Clause | None, passing: frozenset[str], sign_words: set[int]
) -> bool:
    """Whether a negation stands before *hit* in its *clause*, with only *passing* words or other signs between."""
    if _nothing_is(hit, words):
        return True
    over = softened(hit, words) and not settled_since(hit, words, marks)
    if clause is None or over or _begins_anew(hit, sign_words, words):
        return False
    pseudo = marks.at("pseudo")
    at = hit.start - 1
    first = clause.start
    if first and words[first].form in ("or", "nor") and first - 1 in sign_words:
        first = max(0, hit.start - _DENIED_WITHIN)  # “never a spark or a puff of smoke”
    elif first and words[first].form == "once" and words[first - 1].form == "never":
        first -= 1  # “never once a spark”
    while at >= first and at >= hit.start - _DENIED_WITHIN:
        form = words[at].form
        if words[at + 1].brk == 2 or _states_anew(at, sign_words, words):
            return False
        if form == "nothing" and (at - 1 in sign_words or _of_anything(at, hit, words)):
            return True
        if form in DENYING:
            if any(a <= at < b for a, b in pseudo):
                return False
            stopped = any(at < a < hit.start for a, _ in marks.at("stoppers"))
            return not stopped and not only_answers(at, words)
        if form in _ADDED and words[min(hit.end, len(words) - 1)].form in _HAPPENS:
            return False
        listed = form in _LISTED and (at - 1 in sign_words or words[at - 1].form in _SENSED_ONLY)
        if form not in passing and at not in sign_words and not listed:
            return False
        at -= 1
    return False


def _nothing_is(hit: Hit, words: Sequence[Word]) -> bool:
    """“nothing's smoking, sparking, leaking or on fire”: all that is listed behind it."""
    for at in range(hit.start - 1, max(hit.start - 1 - _DENIED_WITHIN, -1), -1):
        form = words[at].form
        if words[at + 1].brk == 2 or not (form.endswith("ing") or form in _LISTED or form in ("is", "was")):
            return False
        if form == "nothing":
            return words[at + 1].form in ("is", "was")
    return False


_SAYS_ANEW = frozenset(["smells", "stinks", "reeks", "huele", "apesta"])
"""“nobody is cooking, smells electric”: behind a comma the verb tells anew."""


def _begins_anew(hit: Hit, sign_words: set[int], words: Sequence[Word]) -> bool:
    """Whether *hit* has its own "no", begins a statement, or is all there is: none that stands before it reaches it."""
    first = words[hit.start]
    if first.form in DENYING or (first.brk and first.form in _SAYS_ANEW):
        return True
    return _only(hit, words) or _states_anew(hit.start, sign_words, words)


_A_SUBJECT = frozenset(["it", "its", "theres", "thats", "huele", "hay", "sale", "es", "era", "son", "eran"])


def _states_anew(at: int, sign_words: set[int], words: Sequence[Word]) -> bool:
    """“it doesn't smell like gas it smells like burnt plastic”: behind another sign word *at* begins a statement."""
    return at - 1 in sign_words and words[at].form in _A_SUBJECT and words[at - 1].form not in DENYING


def _only(hit: Hit, words: Sequence[Word]) -> bool:
    """“no flames, sparks only”."""
    at = hit.end
    if at >= len(words) or words[at].brk or words[at].form not in ("only", "nomas"):
        return False
    return at + 1 == len(words) or words[at + 1].brk > 0


_BEFORE_NOTHING = frozenset((
    "and", "but", "or", "with", "theres", "is", "there", "smell", "smells", "smoke", "hot", "wet", "sure", "emergency", "ok",
    "okay", "fine", "good", "here",
))  # fmt: skip


def _of_anything(at: int, hit: Hit, words: Sequence[Word]) -> bool:
    """“no smoke, nothing on fire”, “nothing was smoking”; not “it does nothing smells burnt”, where it tells of the machine."""
    stands = at + 1 < len(words) and words[at + 1].form in ("is", "was")  # “does nothing” goes on otherwise
    if at and not words[at].brk and words[at - 1].form not in _BEFORE_NOTHING and not stands:
        return False
    return all(not word.brk for word in words[at + 1 : hit.start + 1])


def only_answers(at: int, words: Sequence[Word]) -> bool:
    """“no and it smells”, “no, smells”: a "no" that opens the text is an answer."""
    after = words[at + 1] if at + 1 < len(words) else None
    return (
        words[at].form == "no"
        and words[at].brk == 2
        and after is not None
        and (after.brk >= 1 or after.form in _AFTER_ANSWER)
    )


_PLAIN_NO = frozenset(
    ["no", "nope", "nah", "nada", "negative", "none", "zero", "cero", "ninguno", "ninguna", "tampoco", "never", "nunca"]
)
_NO_GOES_ON = frozenset((
    "but", "sir", "maam", "senora", "senor", "just", "thank", "thankfully", "pero", "lol", "haha", "jaja", "jeje", "thats",
    "that", "neither", "never", "none", "nothing", "nope", "nada", "ninguno", "ninguna", "eso", "solo", "nomas", "gracias",
))  # fmt: skip
_ENDING = frozenset((
    "stop", "stopped", "stops", "go", "goes", "gone", "went", "away", "clear", "cleared", "quit", "better", "out", "off",
    "still",     "paro", "quito", "fue", "dejo",
))  # fmt: skip
"""“did the smell go away? no”: to deny that it ended says that it is there."""


def asked_and_denied(hit: Hit, words: Sequence[Word]) -> bool:
    """“Do I smell gas? no.”: a question that its own writer answers with a plain no."""
    if not words[hit.start].asks:
        return False
    if any(word.brk == 2 and word.form in _PLAIN_NO for word in words[hit.start + 1 : hit.end]):
        return True  # “oily hissing? nope, the hissing was the humidifier”: heard across the answer
    at = hit.end
    while at < len(words) and words[at].brk != 2:
        at += 1
    if at < len(words) - 1 and words[at].form == "para" and words[at + 1].form == "nada":
        at += 1  # “humo? para nada”
    if at >= len(words) or words[at].form not in _PLAIN_NO:
        return False
    if any(word.form in _ENDING for word in (*words[max(0, hit.start - 3) : hit.start], *words[hit.end : at])):
        return False
    if any(word.form in ("until", "till", "hasta") for word in words[at + 1 : at + 4]):
        return False
    return at + 1 == len(words) or words[at + 1].brk > 0 or words[at + 1].form in _NO_GOES_ON


_SETTLED = frozenset(["fixed", "repaired", "cleared", "sealed", "replaced"])
_AGAIN = frozenset(["again", "still", "back", "yet", "returned", "smell", "stink", "reek", "odor", "leak", "hiss"])


def told_again(hit: Hit, words: Sequence[Word]) -> bool:
    """“the gas company fixed it but it smells again”: what a repair had settled is settled no longer."""
    if words[hit.end - 1].form not in _SETTLED:
        return False
    return any(word.form in _AGAIN or word.en in _AGAIN for word in words[hit.end :])


_SENSES = frozenset(["smell", "see", "hear", "feel", "tell", "notice", "find"])


def of_the_machine(hit: Hit, words: Sequence[Word]) -> bool:
    """“wont start smells burnt”, “does nothing smells burnt”: that negation is the machine's."""
    first, after = words[hit.start], words[min(hit.start + 1, len(words) - 1)]
    if first.form == "nothing" and hit.start and not first.brk:
        return words[hit.start - 1].en == "do"
    return first.form in ("wont", "cant", "couldnt") and after.en not in _SENSES


def breaks(hit: Hit, words: Sequence[Word]) -> bool:
    """Whether a sentence ends inside *hit*: then it neither denies nor excuses anything ("no" + "smell gas")."""
    return any(word.brk == 2 for word in words[hit.start + 1 : hit.end])


_ENDS = frozenset(["stop", "stops", "quit", "quits", "deja", "para", "dejado", "parado", "calla"])


def never_ends(hit: Hit, words: Sequence[Word]) -> bool:
    """“the co detector won't stop beeping”, “no deja de sonar”: what is denied is the end of it."""
    inside = range(max(1, hit.start), hit.end)
    return any(words[at].form in _ENDS and words[at - 1].form in _CEASELESS for at in inside)


_CEASELESS = DENYING | frozenset(["wont", "cant", "se", "wouldnt"])


_ADDS = frozenset(["and", "but", "plus", "pero"])
_TURNING = frozenset(["it", "but", "i", "pero", "si", "sino", "es", "huele", "apesta", "smells"])


def turns(hit: Hit, words: Sequence[Word]) -> bool:
    """“not static, it shocks”: behind the comma it is told what is so."""
    if hit.end < len(words) and words[hit.end].asks and words[hit.end].form in ("right", "verdad"):
        return True  # “smoke comes out, thats just steam right?”: asked, not told
    return adds(hit, words) or any(word.brk == 1 and word.form in _TURNING for word in words[hit.start + 1 : hit.end])


def adds(hit: Hit, words: Sequence[Word]) -> bool:
    """“no heat and smell of burning”: behind the “and” it is told what is so."""
    inside = range(hit.start + 1, hit.end - 1)
    return words[hit.start].form in DENYING and any(
        words[at].form in _ADDS and words[at + 1].form not in DENYING for at in inside
    )


def softened(hit: Hit, words: Sequence[Word]) -> bool:
    """“anymore”, “no longer”, “ya no”: it was there; a person clears it."""
    first, last = max(0, hit.start - 3), hit.end + 3
    around = [w.form for w in words[first:last]]
    if any(w in ("anymore", "longer") for w in around) or ("any" in around and "more" in around):
        return True
    if (
        hit.end + 1 < len(words)
        and words[hit.end].form in ("before", "until", "till")
        and words[hit.end + 1].form in _LATELY
    ):
        return True  # “never sparked before tonight”
    before = any(w.form == "ya" for w in words[first : hit.end])
    return before or (hit.end < len(words) and words[hit.end].form == "ya" and _ends(hit.end, words))


def until_lately(hit: Hit, words: Sequence[Word]) -> bool:
    """“never sparked before tonight”, “nunca había echado humo hasta hoy”: then it has now."""
    behind = [word.form for word in words[hit.end : hit.end + 2]]
    return len(behind) == 2 and behind[0] in _UNTIL and behind[1] in _LATELY


_UNTIL = frozenset(["before", "until", "till", "hasta", "antes"])
_LATELY = frozenset(
    ["tonight", "today", "now", "this", "yesterday", "last", "just", "hoy", "ahora", "anoche", "ayer", "ahorita"]
)


def _ends(at: int, words: Sequence[Word]) -> bool:
    """Whether the sentence ends with word *at*: “no huele ya”, not “no huele, ya me fijé”."""
    return words[at].brk == 0 and (at + 1 == len(words) or words[at + 1].brk > 0)
