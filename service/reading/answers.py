"""What a text answers to what was asked: yes, no, don't know, a number, an ordinal, the words of a choice, a value."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from service.reading.matching import Hit
from service.reading.model import Answer, Asked, Choice, Found, Reading, Wish
from service.reading.normalising import Word
from service.reading.stemming import stem_en, stem_es

_YES_NO = frozenset({"yes_no", "check_result", "confirm", "observation", "photo"})
_VALUES = frozenset(
    {
        "brand",
        "age",
        "model",
        "serial",
        "code",
        "name",
        "address",
        "postal_code",
        "phone",
        "access",
        "payer",
        "fuel",
        "variant",
    }
)
_FACT_OF = {"age": "age_years"}
_REPLIES = ("yes", "no", "dont_know", "declined", "none", "either", "maybe")
_ORDINALS = {
    word: number
    for number, words in enumerate(
        ("first 1st one uno primero primera primer", "second 2nd two dos segundo segunda", "third 3rd three tres tercero tercera tercer",
         "fourth 4th four cuatro cuarto cuarta", "fifth 5th five cinco quinto quinta")
    )
    for word in words.split()
}  # fmt: skip
_LAST = frozenset("last latter ultimo ultima".split())
_NUMBERED = re.compile(r"(?:^|[\s#(])(?:option |number |num |no\.? |opcion |numero |la |el |#)?([1-9])(?:[.)!,\s]|$)")
_SMALL = frozenset("the a an of in is it to my on at and or el la los las de un una en es se y o between".split())


def read_answer(
    asked: Asked | None, words: Sequence[Word], hits: Sequence[Hit], text: Reading, media: int
) -> Answer | None:
    """The answer in a text whose other findings are in *text*; None when it does not answer what was asked."""
    if asked is None or (not words and not media):
        return None
    replies = _replies(hits, words)
    if asked.choices or asked.kind == "offer":
        chosen = _chosen(asked, words, replies, text)
        if chosen is not None:
            return chosen
    if asked.kind in _VALUES:
        return _value(asked, words, replies, text)
    if asked.kind == "photo" and media:
        return Answer("yes")
    if asked.kind in _YES_NO:
        return _yes_no(asked, words, replies, text)
    if asked.kind in ("symptom", "appliance"):
        return _named(asked, replies, text)
    return _plain(replies)


def _replies(hits: Sequence[Hit], words: Sequence[Word]) -> dict[str, Hit]:
    """Which plain replies the text holds: ``yes`` and ``no`` count at its beginning or end, the others anywhere."""
    found: dict[str, Hit] = {}
    talk = [h for h in hits if h.payload.kind == "talk" and h.payload.code in (*_REPLIES, "hedged")]
    innocent = [h for h in talk if h.payload.role == "innocent"]
    for hit in sorted(talk, key=lambda h: (h.start, -h.end)):
        code = hit.payload.code
        if hit.payload.role == "innocent" or any(
            i.payload.code == code and i.start <= hit.start and hit.end <= i.end for i in innocent
        ):
            continue
        if hit.payload.role == "alone" and (hit.start > 0 or hit.end < len(words)):
            continue
        if any(
            h.start <= hit.start and hit.end <= h.end and h.length > hit.length and h.payload.role != "innocent"
            for h in talk
        ):
            continue
        found.setdefault(code, hit)
    for code in ("yes", "no"):
        if (
            code in found
            and found[code].start > 3
            and words[found[code].start].brk == 0
            and found[code].payload.role != "alone"
        ):
            del found[code]
    return found


def _plain(replies: Mapping[str, Hit]) -> Answer | None:
    hedged = "hedged" in replies
    for first in ("yes", "no"):
        if first in replies and replies[first].start == 0:
            return Answer(first, hedged=hedged)  # type: ignore[arg-type]
    if "dont_know" in replies and not _earlier(replies, "dont_know", ("yes", "no")):
        return Answer("dont_know")
    if "declined" in replies and "yes" not in replies:
        return Answer("declined")
    if "yes" in replies and "no" in replies:
        first = "yes" if replies["yes"].start < replies["no"].start else "no"
        return Answer(first, hedged=hedged)  # type: ignore[arg-type]
    if "yes" in replies:
        return Answer("yes", hedged=hedged)
    if "no" in replies:
        return Answer("no", hedged=hedged)
    if "maybe" in replies:
        return Answer("yes", hedged=True)
    return None


def _earlier(replies: Mapping[str, Hit], code: str, others: Sequence[str]) -> bool:
    return any(other in replies and replies[other].end <= replies[code].start for other in others)


def _yes_no(asked: Asked, words: Sequence[Word], replies: Mapping[str, Hit], text: Reading) -> Answer | None:
    if asked.kind == "check_result":
        result = _result(replies, text)
        if result is not None:
            return result
    plain = _plain(replies)
    stated = _stated(asked, text)
    if plain is not None and plain.kind in ("dont_know", "declined") and stated is not None:
        return stated
    if plain is not None:
        return plain
    if stated is not None:
        return stated
    return Answer("either") if "either" in replies else None


def _result(replies: Mapping[str, Hit], text: Reading) -> Answer | None:
    intents = set(text.intents)
    if "not_fixed" in intents:
        return Answer("not_fixed")
    if "fixed" in intents:
        return Answer("fixed", hedged="hedged" in replies)
    plain = _plain(replies)
    if plain is not None and plain.kind == "yes":
        return Answer("fixed", hedged=plain.hedged)
    if plain is not None and plain.kind == "no":
        return Answer("not_fixed", hedged=plain.hedged)
    if plain is None and text.symptoms:
        return Answer("not_fixed")
    return plain


def _stated(asked: Asked, text: Reading) -> Answer | None:
    """The asked code said outright: “it drains fine” to a question about no_drain is a no."""
    if asked.code is None:
        return None
    if any(f.code == asked.code for f in text.symptoms) or any(h.code == asked.code for h in text.hazards):
        return Answer("yes")
    if any(f.code == asked.code for f in text.denied) or any(h.code == asked.code for h in text.denied_hazards):
        return Answer("no")
    for seen in text.observations:
        if seen.id == asked.code:
            return (
                Answer(seen.value, hedged=seen.hedged) if seen.value in ("yes", "no") else Answer("value", seen.value)
            )  # type: ignore[arg-type]
    return None


def _named(asked: Asked, replies: Mapping[str, Hit], text: Reading) -> Answer | None:
    if asked.kind == "appliance" and text.appliances:
        return Answer("value", text.appliances[0])
    found: Sequence[Found] = text.symptoms
    if asked.kind == "symptom" and found:
        return Answer("value", found[0].code)
    if asked.kind == "symptom" and text.hazards:
        return Answer("value", text.hazards[0].code)
    if "none" in replies:
        return Answer("none")
    return _plain(replies)


def _value(asked: Asked, words: Sequence[Word], replies: Mapping[str, Hit], text: Reading) -> Answer | None:
    fact = text.facts.get(_FACT_OF.get(asked.kind, asked.kind))
    if fact is not None:
        value = ", ".join(map(str, fact)) if isinstance(fact, tuple) else str(fact)
        return Answer("value", value, hedged="hedged" in replies)
    if "dont_know" in replies:
        return Answer("dont_know")
    if "declined" in replies:
        return Answer("declined")
    return _plain(replies)


def _chosen(asked: Asked, words: Sequence[Word], replies: Mapping[str, Hit], text: Reading) -> Answer | None:
    options = asked.choices or tuple(Choice(offer, offer) for offer in asked.offers)
    index = _by_number(words, text.text, len(options))
    if index is None and "none" not in replies and not ("no" in replies and len(words) <= 3):
        index = None if asked.kind != "offer" and "yes" in replies and len(words) > 2 else _by_words(words, options)
        if index is None and asked.kind == "offer":
            index = _by_wish(text.wish, options)
    if index is not None:
        return Answer("choice", options[index].value, index, hedged="hedged" in replies)
    if "either" in replies:
        return Answer("either")
    if "none" in replies:
        return Answer("none")
    if "yes" in replies and len(options) == 1:
        return Answer("choice", options[0].value, 0, hedged="hedged" in replies)
    if asked.kind == "offer" and "no" in replies:
        return Answer("none")
    if asked.kind == "offer":
        told = _plain(replies)
        return told or (Answer("value", text.wish.words) if text.wish is not None else None)
    return _plain(replies) if "dont_know" in replies or "declined" in replies else None


def _by_number(words: Sequence[Word], text: str, count: int) -> int | None:
    match = _NUMBERED.search(text.lower())
    digits = (
        match
        and int(match.group(1)) <= count
        and not re.match(r"\s*(?:am|pm|years|days|hours|anos|or|o|to|-)", text[match.end() - 1 :].lower())
    )
    if digits and match and (match.start() <= 1 or match.group().strip(" #(.,)!") != match.group(1) or len(words) <= 5):
        before = [w.form for w in words if w.end <= match.start(1)][-1:]
        if not before or before[0] not in ("after", "before", "at", "las", "until", "by", "for", "have"):
            return int(match.group(1)) - 1
    for at, word in enumerate(words):
        if (
            word.form in _LAST
            and len(words) <= 6
            and not (at + 1 < len(words) and words[at + 1].form in ("week", "night", "year", "month"))
        ):
            return count - 1
        number = _ORDINALS.get(word.form)
        if number is None or number >= count:
            continue
        alone = len(words) == 1
        article = at > 0 and words[at - 1].form in ("the", "la", "el", "number", "option", "opcion", "numero", "con")
        if (
            alone
            or (article and word.form != "one")
            or (
                word.form in ("first", "second", "third", "primero", "segundo", "primera", "segunda")
                and len(words) <= 6
            )
        ):
            return number
    return None


def _by_words(words: Sequence[Word], options: Sequence[Choice]) -> int | None:
    """The choice that shares most of its telling words with the text, if one stands out."""
    spoken = {w.en for w in words} | {w.es for w in words}
    all_words = [
        {k for part in re.findall(r"\w+", o.say.lower()) for k in (stem_en(_bare(part)), stem_es(_bare(part)))}
        for o in options
    ]
    scores = []
    for own in all_words:
        telling = {k for k in own if k not in _SMALL and not k.isdigit() and sum(k in other for other in all_words) == 1}
        scores.append(len(telling & spoken))
    best = max(scores, default=0)
    return scores.index(best) if best > 0 and scores.count(best) == 1 else None


def _bare(word: str) -> str:
    from service.reading.normalising import fold

    return fold(word)


def _by_wish(wish: Wish | None, options: Sequence[Choice]) -> int | None:
    """An offer by its weekday alone, when only one falls on it (“the thursday one works”)."""
    if wish is None or len(wish.days_in) != 1:
        return None
    from service.reading.wishes import weekday_of

    matching = [number for number, option in enumerate(options) if weekday_of(option.say) == wish.days_in[0]]
    return matching[0] if len(matching) == 1 else None


def hedge(answer: Answer) -> Answer:
    """The same answer said with doubt."""
    return replace(answer, hedged=True)
