"""Which choice a text takes by its place: “2”, “the second one”, “number one, since about Easter”, “b”, “la de en medio”."""

from __future__ import annotations

import re
from collections.abc import Sequence

from service.reading.replies.option_words import is_all_at_first
from service.reading.words.normalising import Word, fold

_ORDINAL_WORDS = (
    "first 1st one uno primero primera primer",
    "second 2nd two dos segundo segunda",
    "third 3rd three tres tercero tercera tercer",
    "fourth 4th four cuatro cuarto cuarta",
    "fifth 5th five cinco quinto quinta",
)
ORDINALS = {word: number for number, words in enumerate(_ORDINAL_WORDS) for word in words.split()}
_LAST = frozenset(["last", "latter", "ultimo", "ultima"])
_MIDDLE = frozenset(("middle", "medio"))
_OTHER_TIME = frozenset(("not", "no", "later", "too", "muy", "mas", "more"))
OF_TWO, OF_THREE = 2, 3
"""Only of three choices is one in the middle."""
MOST_BY_PLACE = 5
"""An answer of more words tells more than the place of a choice ("la de en medio")."""
_NUMBERED = re.compile(
    r"(?:^|[\s#(])(?:option |number |num |no\.? |opcion |numero |la |el |#)?([1-9])(?:[.)!,\s]|[-:–](?=\s+[a-z])|$)"
)

_AMOUNT = re.compile(
    r"\s*(?:am|pm|years?|yrs?|days?|hours?|hrs?|seconds|secs|minutes|mins|anos?|horas?|segundos|minutos|or|o|to|-\s*\d)"
)
"""Behind a number these make it an hour, an age or how long."""
_NO_OPTION = frozenset(("after", "before", "at", "las", "until", "by", "for", "have", "around"))
"""Before a number these make it an hour or an amount, no option's number."""


def by_number(words: Sequence[Word], text: str, count: int, *, lettered: bool) -> int | None:
    """The choice of *count* that is named by its number, its place, an ordinal or, where it may be *lettered*, a letter."""
    digit = _by_digit(words, text, count)
    if digit is not None:
        return digit
    first = _first_statement(words)
    windows = not lettered
    if windows and count >= OF_TWO and tuple(word.form for word in first) in _LATEST:
        return count - 1
    placed = _by_place(first, count)
    if placed is None:
        placed = _by_ordinal(not_refused(words), count)
    return _by_letter(text, count) if placed is None and lettered else placed


def _by_digit(words: Sequence[Word], text: str, count: int) -> int | None:
    match = _NUMBERED.search(text.lower())
    if not match or int(match.group(1)) > count or _AMOUNT.match(text[match.end() - 1 :].lower()):
        return None
    marked = match.start() <= 1 or match.group().strip(" #(.,)!") != match.group(1)
    if not (marked or len(words) <= MOST_BY_PLACE or _is_mostly(words, match.start(1))):
        return None
    before = ["", "", *(w.form for w in words if w.end <= match.start(1))][-2:]
    an_hour = before == ["a", "la"] or before[1] in _NO_OPTION
    return None if an_hour else int(match.group(1)) - 1


def _by_ordinal(words: Sequence[Word], count: int) -> int | None:
    for at, word in enumerate(words):
        after = words[at + 1] if at + 1 < len(words) else None
        form = after.form if after else ""
        if word.form in _LAST and (len(words) <= _FEW or is_all_at_first(words, at)) and form not in _SPANS:
            return count - 1
        number = ORDINALS.get(word.form)
        if number is None or number >= count:
            continue
        if at == 0 and word.form != "one" and after and (after.brk or form in _ONE):
            return number
        before = words[at - 1].form if at > 0 else ""
        if len(words) == 1 or before in _NUMBER or (before in _ARTICLES and word.form != "one"):
            return number
        if word.form in _PLAINLY and len(words) <= _FEW and form not in _TIMES:
            return number
    return None


_ONE = frozenset(("one", "option", "slot", "choice", "opcion"))
"""“1st one, I'll be out back”: behind an ordinal that begins a text."""
_FEW = 6
_SPANS = ("week", "night", "year", "month")
_NUMBER = ("number", "option", "opcion", "numero", "con")
_ARTICLES = ("the", "la", "el", "lo")
_PLAINLY = (
    "first", "second", "third", "primero", "segundo", "tercero", "primera", "segunda", "tercera",
)  # fmt: skip
_TIMES = ("time", "day", "load", "vez")
"""“third time this week” takes no choice."""
_LETTER = re.compile(r"(?:(?:option|letter|letra|opcion|la|the) )?([a-e])(?:[.,):;]|\s*$)")


def _by_letter(text: str, count: int) -> int | None:
    """“B”, “la b, la que no exprime”: choices are numbered, and some count them by letters all the same."""
    found = _LETTER.match(fold(text).strip())
    place = ord(found.group(1)) - ord("a") if found else count
    return place if place < count else None


def _first_statement(words: Sequence[Word]) -> Sequence[Word]:
    """Up to the first break: “later one. i'll leave the key under the pot”."""
    return words[: next((at for at, word in enumerate(words) if at and word.brk), len(words))]


_MOSTLY = frozenset(("mostly", "mainly", "probably", "definitely", "say", "guess", "think", "creo", "diria", "digamos"))


def _is_mostly(words: Sequence[Word], at: int) -> bool:
    """“mostly 2 but it also stinks”: what leads up to the number at sign *at*."""
    return any(word.form in _MOSTLY for word in [w for w in words if w.end <= at][-1:])


def names_several(words: Sequence[Word]) -> bool:
    """“first slot, second slot, all the same to us”."""
    return len({ORDINALS[word.form] for word in words if word.form in ORDINALS and word.form != "one"}) > 1


_LATEST = frozenset(
    tuple(said.split())
    for said in (
        "the later", "the later one", "later one", "whichever is later", "whichevers later", "whichever is the latest",
        "the latest", "the latest one", "la mas tarde", "lo mas tarde", "la ultima de todas",
    )
)  # fmt: skip
"""So a text takes the last of the windows it was shown."""


def _by_place(words: Sequence[Word], count: int) -> int | None:
    """“the middle one”, “la de en medio” of three, “the early one”, “la temprana”."""
    said = {word.form for word in words}
    if len(words) > MOST_BY_PLACE or said & (_OTHER_TIME - {"later"} if "one" in said else _OTHER_TIME):
        return None
    if count == OF_THREE and said & _MIDDLE:
        return 1
    if count == OF_TWO and {"later", "one"} <= said and not said & (_OTHER_TIME - {"later"}):
        return 1
    early = {"early", "one"} <= said or said & {"temprana", "tempranito"}
    return 0 if early else None


def not_refused(words: Sequence[Word]) -> Sequence[Word]:
    """“not the noise, the leak”: the words behind the comma; all of them where nothing is refused so."""
    if len(words) < OF_THREE or words[0].form not in ("not", "no") or words[1].form not in _THE:
        return words
    apart = next((at for at in range(2, len(words)) if words[at].brk), 0)
    return words[apart:] if apart and not words[1].brk else words


_THE = frozenset(("the", "a", "es", "el", "la", "los", "las", "so"))
