"""Plain replies, and which of several choices or offers a text takes: by number, ordinal or words, or none."""

from __future__ import annotations

from collections.abc import Container, Mapping, Sequence

from service.reading.model import Answer, Asked, Choice, Reading
from service.reading.replies.numbered import ORDINALS, by_number, names_several, not_refused
from service.reading.replies.option_words import by_words, named_whole
from service.reading.times.offer_times import by_wish, first_of_two_days, names_another, unless_other_time
from service.reading.words.asking import questions
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word, fold

_A_KIND = 4
_KINDS = frozenset(("fuel", "variant"))
"""What a text of few words tells that names the kind of machine and no fault."""


def plain(replies: Mapping[str, Hit]) -> Answer | None:
    """Yes, no, don't know or declined as the text puts it; None when it says none of these."""
    hedged = "hedged" in replies
    if "yes" in replies and replies["yes"].start == 0:
        return Answer("yes", hedged=hedged)
    if "no" in replies and replies["no"].start == 0:
        return Answer("no", hedged=hedged)
    if "dont_know" in replies and not _earlier(replies, "dont_know", ("yes", "no")):
        return Answer("dont_know")
    if "declined" in replies and "yes" not in replies:
        return Answer("declined")
    if "yes" in replies and "no" in replies:
        return Answer("yes" if replies["yes"].start < replies["no"].start else "no", hedged=hedged)
    if "yes" in replies:
        return Answer("yes", hedged=hedged)
    if "no" in replies:
        return Answer("no", hedged=hedged)
    if "maybe" in replies:
        return Answer("yes", hedged=True)
    return None


def _earlier(replies: Mapping[str, Hit], code: str, others: Sequence[str]) -> bool:
    return any(other in replies and replies[other].end <= replies[code].start for other in others)


def _by_words(
    asked: Asked, words: Sequence[Word], replies: Mapping[str, Hit], text: Reading, options: Sequence[Choice]
) -> int | None:
    """The choice that the words name, of windows also by its day or hour."""
    if asked.kind == "symptom" and len(words) <= _A_KIND and _KINDS & text.facts.keys():
        return None  # “electric glass” names the machine, no fault of its glass
    if asked.kind != "offer":
        bare_yes = "yes" in replies and len(words) > 2
        return None if bare_yes else by_words(_telling(asked, words), options, timed=False)
    taken = first_of_two_days(words, options)
    if taken is not None:
        return taken
    index = by_words(_telling(asked, words), options, timed=True)
    forms = [word.form for word in words]
    return by_wish(text.wish, options, forms) if index is None else unless_other_time(index, text.wish, options)


def chosen(asked: Asked, words: Sequence[Word], replies: Mapping[str, Hit], text: Reading) -> Answer | None:
    """The choice or offer taken, or that none or any is; None when the text does not say."""
    options = asked.choices or tuple(Choice(offer, offer) for offer in asked.offers)
    whole = named_whole(words, options) if asked.kind != "offer" else None
    if whole is not None:
        return Answer("choice", options[whole].value, whole, hedged="hedged" in replies)
    numbered = options and not _asks_first(text) and not ("either" in replies and names_several(words))
    place = _besides_the_address(words, text)
    index = by_number(*place, len(options), lettered=asked.kind != "offer") if numbered else None
    if index is not None and asked.kind != "offer" and not any(char.isdigit() for char in text.text):
        index = _named_besides(_telling(asked, words), options, index)
    if index is None and asked.kind != "offer" and "dont_know" not in replies:
        index = _by_nothing(words, options)
    if index is None and "none" not in replies and not ("no" in replies and len(words) <= 3):
        index = _by_words(asked, words, replies, text, options)
    if index is not None:
        return Answer("choice", options[index].value, index, hedged="hedged" in replies)
    if asked.kind == "offer" and text.wish is not None and names_another(text.wish, replies, words):
        return Answer("value", text.wish.words)
    if ("none" in replies and not _earlier(replies, "none", ("either",))) or (asked.choices and _only_nothing(words)):
        return Answer("none")
    if "either" in replies:
        return Answer("either")
    if "yes" in replies and len(options) == 1:
        return Answer("choice", options[0].value, 0, hedged="hedged" in replies)
    if asked.kind == "offer" and "no" in replies:
        return Answer("none")
    if asked.kind == "offer":
        told = plain(replies)
        return told or (Answer("value", text.wish.words) if text.wish is not None else None)
    return plain(replies) if "dont_know" in replies or "declined" in replies else None


def _besides_the_address(words: Sequence[Word], text: Reading) -> tuple[Sequence[Word], str]:
    """The words and the text without a street address told in it: the 3 of “apt 3” takes no choice."""
    address = text.facts.get("address")
    at = text.text.find(address) if isinstance(address, str) and address else -1
    if not isinstance(address, str) or at < 0:
        return words, text.text
    end = at + len(address)
    left = [word for word in words if not at <= word.start < end]
    return left, text.text[:at] + " " * len(address) + text.text[end:]


def _asks_first(text: Reading) -> bool:
    """“what does it cost first”: no first choice; “the first one works. what does it cost?” is one."""
    last = text.text.rstrip(" ?!.").rpartition(" ")[2].lower()
    return "ask_price" in text.intents and last in ("first", "primero")


def _named_besides(words: Sequence[Word], options: Sequence[Choice], index: int) -> int:
    """“the washer first”: the choice that is named, not the one that stands first."""
    named = by_words([word for word in words if word.form not in ORDINALS], options, timed=False)
    return index if named is None else named


_SHUT = frozenset(("cerre", "cerramos", "cerro", "cerraron", "cerrada", "cerradas", "closed", "shut"))
_TAPS = frozenset(("llave", "llaves", "valve", "valves", "tap", "taps", "water", "agua", "paso"))
_NOTHING = frozenset(("nothing", "none", "nada", "ninguno", "ninguna"))
_NEVER = frozenset(("never", "nunca"))
_NO = frozenset(("no", "nope", "nah"))
_BESIDES = frozenset((
    "at", "all", "really", "i", "hear", "heard", "see", "saw", "it", "there", "is", "just", "sound", "noise", "de", "se",
    "oye", "hay", "me", "makes", "does", "hace", "absolutely", "please", "sir", "maam", "that", "can", "comes", "sale",
    "oigo", "veo", "para",
))  # fmt: skip
_EMPTY = _NO | _NOTHING | {"empty"}


def _by_nothing(words: Sequence[Word], options: Sequence[Choice]) -> int | None:
    """“nothing”, “nada de nada”: the one choice that says so; “none of those” is about the choices and takes none."""
    said = {word.form for word in words}
    if not said & (_NOTHING | _NEVER | _NO) or said - _NOTHING - _NEVER - _NO - _BESIDES:
        return None
    wanted = _EMPTY if said & _NOTHING else _NEVER if said & _NEVER else _NO | {"none", "ninguno", "ninguna"}
    empty = [place for place, option in enumerate(options) if _first_word(option) in wanted]
    return empty[0] if len(empty) == 1 else None


def _first_word(option: Choice) -> str:
    return fold(option.say).split(" ", 1)[0].strip(",.")


_OF_THE_MACHINE = ("no", "declined", "dont_know")


def of_the_offer(asked: Asked, words: Sequence[Word], replies: dict[str, Hit], text: Reading) -> dict[str, Hit]:
    """*replies* without what "wont spin" and "it doesnt drain either" say of the machine, and not of windows offered."""
    if asked.kind != "offer":
        return replies
    marked = questions(words).marked
    replies = {c: hit for c, hit in replies.items() if c not in _REFUSING or not _by_the_way(c, hit, words, marked)}
    if not text.symptoms or text.wish is not None or _refused(words):
        return replies
    either = any(word.form == "either" for word in words) and not _stands_first(replies.get("either"), words)
    return {
        code: hit for code, hit in replies.items() if code not in _OF_THE_MACHINE and not (code == "either" and either)
    }


_REFUSING = ("no", "none", "declined", "dont_know")
_SHORT = 4
"""In a text of so few words a “no” refuses wherever it stands: “sorry no”, “pues la verdad no”."""
_OF_THE_HOUSE = frozenset(("hay", "tenemos", "tengo", "oigo", "tiene", "codes", "gate", "code", "dogs", "pets"))


def _by_the_way(code: str, hit: Hit, words: Sequence[Word], marked: Container[int]) -> bool:
    """“y si no la arreglan me cobran?”, “toquen fuerte que no oigo”, “no hay codigo”: no window is refused by that."""
    if hit.start > 0 and hit.start in marked:
        return True
    if code != "no" or len(words) == hit.end:
        return False
    inside = hit.start > 0 and not words[hit.start].brk and len(words) > _SHORT
    return inside or words[hit.end].form in _OF_THE_HOUSE or words[hit.end - 1].form in _OF_THE_HOUSE


def _stands_first(hit: Hit | None, words: Sequence[Word]) -> bool:
    """“Either. Heads up tho, its dripping now”."""
    return hit is not None and hit.start == 0 and (hit.end == len(words) or words[hit.end].brk > 0)


def _refused(words: Sequence[Word]) -> bool:
    """“no, its leaking now”: a no that stands apart."""
    return words[0].form in _NO and (len(words) == 1 or words[1].brk > 0)


def _only_nothing(words: Sequence[Word]) -> bool:
    said = {word.form for word in words}
    return bool(said & _NOTHING) and not said - _NOTHING - _BESIDES


def _telling(asked: Asked, words: Sequence[Word]) -> Sequence[Word]:
    """
    The words that may name a choice: a question's own do not, unless windows are offered ("can you do Friday"), nor those
    that say what was shut ("ya le cerré la llave").
    """
    if asked.kind == "offer":
        return words
    words = not_refused(words)
    asking = questions(words).plain
    shut = any(word.form in _SHUT for word in words) and any(word.form in _TAPS for word in words)
    return [w for at, w in enumerate(words) if at not in asking and not (shut and _is_shut(words, at))]


def _is_shut(words: Sequence[Word], at: int) -> bool:
    """Whether the word at *at* stands in the statement that something was shut."""
    first = next((n for n in range(at, -1, -1) if words[n].brk), 0)
    last = next((n for n in range(at + 1, len(words)) if words[n].brk), len(words))
    return any(word.form in _SHUT for word in words[first:last])
