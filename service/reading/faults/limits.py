"""What limits a statement: some of several only, over unless it comes again, or cut off before its verb."""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.words.clauses import Clause
from service.reading.words.marks import Marks
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word

_AND = frozenset(["and", "but", "y", "pero"])
_THE_OTHERS = frozenset((
    "other", "others", "rest", "otro", "otra", "otros", "otras", "demas", "izquierda", "derecha", "left", "right", "front",
    "back", "bottom", "top", "abajo", "arriba", "atras", "enfrente", "big", "small", "grande", "chico", "chica",
))  # fmt: skip
_NOT = frozenset(["no", "not", "dont", "doesnt", "wont", "arent", "isnt", "tampoco", "nothing", "nada"])
_WITHIN = 7
_AGAIN = frozenset(["again", "vuelve", "vuelven", "volviera", "volvieran", "volver", "returns"])


def others_do_not(words: Sequence[Word], end: int) -> bool:
    """“unos botones responden y otros no”: behind the statement that ends at *end*, the rest does not do so."""
    joined = other = False
    for at in range(end, min(len(words), end + _WITHIN)):
        if words[at].brk == 2:
            return False
        if other and words[at].form in _NOT:
            return at + 1 == len(words) or words[at + 1].brk > 0
        joined = joined or words[at].form in _AND or words[at].brk > 0
        other = other or (joined and words[at].form in _THE_OTHERS)
    return False


def is_over_for_now(words: Sequence[Word], clause: Clause, marks: Marks) -> bool:
    """“If it leaks again I'll call. For now it's fine”: supposed to come again, and told to be well elsewhere in the text."""
    if not clause.if_ or not any(word.form in _AGAIN for word in words[clause.start : clause.end]):
        return False
    return any(not clause.start <= a < clause.end for a, _ in marks.at("fine"))


_DOES_NOT = frozenset(("doesnt", "dont", "didnt", "wont", "isnt"))
_FAULTY = frozenset((
    "burn", "burning", "leak", "leaking", "drip", "smell", "smoke", "smoking", "spark", "sparking", "trip",
    "click", "clicking", "beep", "beeping", "rattle", "shake", "read", "shut", "let", "overflow", "freeze", "squeak", "hum",
    "buzz",
))  # fmt: skip
"""Verbs that are no work of a machine: behind "the oven doesn't" they tell something else than that it does not work."""


def is_cut_short(hit: Hit, words: Sequence[Word]) -> bool:
    """
    Whether the words of a fault are cut out of others: “the oven doesn't | burn food anymore”, “the ice maker won't | quit
    making ice”, “no, | cierra bien”, where the "no" answers.
    """
    if hit.end - hit.start < 2:
        return False
    if words[hit.start].form == "no" and words[hit.start + 1].brk:
        return True
    if words[hit.end - 1].form not in _DOES_NOT or hit.end >= len(words) or words[hit.end].brk:
        return False
    return words[hit.end].form in _FAULTY or (words[hit.end].form in _STOPS and _stops_what(words, hit.end + 1))


_STOPS = frozenset(("quit", "stop", "quits", "stops"))


def _stops_what(words: Sequence[Word], at: int) -> bool:
    """Whether what does not stop is told: “wont quit making ice”, “wont stop clicking”."""
    return at < len(words) and not words[at].brk and words[at].form.endswith("ing")


_EXPLAINS = frozenset(("what", "all", "where"))
_WAS = frozenset(("was", "were", "era", "eran", "is"))
_THAT = frozenset(("that", "it", "thats", "eso", "which", "he", "she"))


def is_explained(hit: Hit, words: Sequence[Word]) -> bool:
    """“that was the stink”, “thats what the puddle was”, “thats all that noise was”: told with what it came of."""
    at = hit.start - 1
    pointed = at >= 0 and words[at].form in ("the", "that", "el", "la")
    at -= pointed
    if at < 1:
        return False
    if pointed and words[at].form in ("was", "era") and words[at - 1].form in _THAT:
        return True
    behind = words[hit.end].form if hit.end < len(words) else ""
    return words[at].form in _EXPLAINS and words[at - 1].form in _THAT and behind in _WAS


_TO_GET = frozenset(("get", "need", "want", "have", "getting"))
_THE = frozenset(("the", "this", "that", "my", "a", "to", "get", "have"))


def is_to_be_mended(words: Sequence[Word], start: int) -> bool:
    """“I need to get the leak fixed”: what somebody wants mended is so."""
    at = start - 1
    while at > 0 and words[at].form in _THE - _TO_GET and not words[at + 1].brk:
        at -= 1
    if at < 1 or words[at + 1].brk or words[at].form not in _TO_GET:
        return False
    return any(word.form in _WISHES for word in words[max(0, at - 3) : at + 1])


_WISHES = frozenset(("need", "want", "to", "gotta", "please", "must", "trying", "help"))


_SPILLED = frozenset((
    "spilled", "spilt", "spill", "rained", "poured", "overfilled", "splashed", "derramo", "derrame", "derramaron", "vacie",
    "llovio",
    "tiraron", "salpico", "salpique", "raining", "rain", "rains", "lluvia", "horchata", "pitcher", "jarra", "faucet",
    "sprinkler", "hosed", "llover", "lloviendo", "yovio", "yover", "yoviendo", "aguacero", "granizo", "florero", "trapeador",
    "trapeando",
))  # fmt: skip
_GOES_ON = frozenset((
    "still", "keeps", "keep", "every", "leaks", "leaking", "again", "sigue", "cada", "gotea", "tira", "fuga", "drips",
    "dripping", "siempre", "always", "goteando", "tirando", "fills",
))  # fmt: skip


def spilled(words: Sequence[Word]) -> list[tuple[int, int, str]]:
    """Where water is told of that somebody spilled or the rain brought, and what that does not tell: that a machine leaks."""
    forms = [word.form for word in words]
    if _SPILLED.isdisjoint(forms) and not _is_toppled(forms):
        return []
    if any(form in _GOES_ON and forms[at - 1 : at] not in (["no"], ["ni"]) for at, form in enumerate(forms)):
        return []
    return [(0, len(words), "leak"), (0, len(words), "leak_where")]


_TOPPLED = frozenset((
    "knocked", "tipped", "kicked", "dropped", "dumped", "boiled", "tiro", "tire", "volteo", "voltee", "tumbo", "pateo",
))  # fmt: skip
_HOLDS_WATER = frozenset((
    "bowl", "vase", "bucket", "cup", "glass", "pot", "kettle", "can", "florero", "cubeta", "vaso", "plato", "olla", "balde",
    "over",
))  # fmt: skip


def _is_toppled(forms: Sequence[str]) -> bool:
    """“the cat knocked the vase over”, “el gato tiró el florero”, “the pot boiled over”."""
    return any(
        form in _TOPPLED and not _HOLDS_WATER.isdisjoint(forms[at + 1 : at + _TOPPLED_WITHIN])
        for at, form in enumerate(forms)
    )


_TOPPLED_WITHIN = 6

_THAT_ONE = frozenset(["that", "has", "it", "its", "thats", "eso", "ya", "se", "did"])
"""What stands before "quit" or "stopped" where it is the fault that did."""

_BY_HAND = frozenset(["when", "after", "once", "cuando", "hasta", "until", "for", "because", "porque", "as"])

_ONCE = frozenset(["used", "antes", "before", "solia"]) | frozenset(["was", "were", "estaba", "estaban"])
"""Words of what was usual until it stopped; what befell once, years ago, is over and denies nothing."""


_WERE = frozenset(["was", "were", "estaba", "estaban"])


def was_and_is_not(
    words: Sequence[Word], hit: Hit, clause: Clause, marks: Marks, negators: Sequence[tuple[int, int]]
) -> bool:
    """Whether *hit* is told of the past (“it was leaking”, “rechinaba”), and taken back."""
    was = clause.past or words[hit.start].form.endswith(("aba", "aban"))
    was = was or any(words[at].form in _WERE for at in range(max(clause.start, hit.start - 2), hit.start))
    return was and _is_taken_back(words, clause, marks, negators)


def _is_taken_back(words: Sequence[Word], clause: Clause, marks: Marks, negators: Sequence[tuple[int, int]]) -> bool:
    """“it used to leak | but not anymore”, “tronaba mucho | pero eso ya no”, “leaked | and that has quit on its own”."""
    after: list[str] = []
    for word in words[clause.end : clause.end + 5]:
        if word.brk == 2 and after:
            break
        after.append(word.form)
    last = clause.end + len(after)
    turned = any(clause.end <= a < last for a, _ in negators)
    if turned and ("anymore" in after or ("ya" in after and "no" in after)):
        return True
    if not any(word.form in _ONCE for word in words[clause.start : clause.end]):
        return False
    over = marks.at("stoppers") + marks.at("gone")
    return any(
        clause.end <= a < last
        and words[a - 1].form in _THAT_ONE
        and not any(word.form in _BY_HAND for word in words[b : b + 1])  # "it stopped when I shut the water"
        for a, b in over
    )


_BID = frozenset(["prendan", "prendas", "prendamos", "enciendan", "enciendas", "encendamos"])
_ANYTHING = frozenset(["nada", "ni", "la", "el", "las", "los"])


def is_bid(words: Sequence[Word], start: int) -> bool:
    """“no prendan nada”, “que no prendamos la luz”: people are told to leave it off; nothing is said of the machine."""
    if words[start].form not in _BID or not start or words[start - 1].form != "no" or start + 1 >= len(words):
        return False
    return words[start + 1].form in _ANYTHING and not words[start + 1].brk
