"""Makers nobody listed: a word nobody knows where a machine's description has its maker, in capitals or beside its number."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection

from service.reading.machines.lone_capitals import beside_an_age, leads_to_maker
from service.reading.machines.maker_places import in_a_name, is_far_slip, is_owned_kind, may_name, stands_for_maker
from service.reading.machines.mentions import Mentions
from service.reading.words.counting import COUNT
from service.reading.words.normalising import Normal, Word

SHORTEST = 4
"""Fewer letters make a slip or a small word rather than a maker."""
_SURELY = 6
"""In small letters a shorter word may be a slip, or a verb as it is spoken ("kemo")."""
MODEL = r"(?=[a-z\d/.\-]*[a-z])(?:[a-z]{1,5}-?\d[a-z\d/.\-]*|\d+[a-z]+\d[a-z\d/.\-]*)(?<![.\-/])"
"""A number as it stands behind its maker: “TC15”, “QI-150”, “2R40”."""
AGE = (
    r"(?:(?:maybe|about|like|around|almost|over|only|just|at least|going on|como|unos|casi|mas de|de|con|tiene|is|its|it's)"
    rf" )*{COUNT}"
    r"(?: (?:1/2|to \d+|or \d+|o \d+))?[\s-]?(?:yrs?|years?|anos?|y\.o|y/o|yo)"
)
"""How old a machine is, as it stands behind its maker."""
_NUMBER_NEXT = re.compile(
    rf"\s+(?:model\w*[.:]? |mod[.:]? )?{MODEL}\b|[,.]?\s+{AGE}\b(?! (?:ago|back|now)\b)"
    r"|\s+\d{1,3} ?(?:bottles?|inch|cu|pounds?|lbs?|botellas|pulgadas|kilos)\b"
)
_AGE_NEXT = re.compile(rf",?\s+{AGE}\b(?! (?:ago|back|now)\b)")
_MODEL_NEXT = re.compile(rf"\s+{MODEL}\b")
_NO_MAKER = re.compile(
    r"(?:ando|iendo|yendo|[aei]r(?:lo|la|se|me)?|it[oa]s?|mente|aron|ieron|ab[ao]n?|ad[oa]s?|id[oa]s?|amos|imos|ote|"
    r"azo|cito|"
    r"ing|ed|ness|less|ful|ish|able|tion|ers|est|ies|ous|atic|ever|teen)$"
)
_SURELY_ORDINARY = re.compile(rf"(?:ately|ally|edly|ingly|[^aeiou]ly|mente|tion|ness|ando|iendo)$|^{COUNT}$")
"""How ordinary words end that no list holds."""
_TITLES = frozenset((
    "mr", "mrs", "ms", "miss", "dr", "sr", "sra", "srta", "don", "dona", "senor", "senora", "prof", "lic", "ing", "atte",
    "thanks", "thank", "gracias", "saludos", "regards", "sincerely", "att", "dear", "hi", "hello", "hey", "hola",
))  # fmt: skip
KIN = frozenset((
    "son", "daughter", "kid", "boy", "girl", "baby", "grandson", "granddaughter", "nephew", "niece", "dog", "cat", "toddler",
    "hijo", "hija", "nino", "nina", "nieto", "nieta", "sobrino", "sobrina", "bebe", "perro", "perra", "gato", "named", "se",
    "llamado", "llamada", "mama", "papa", "abuela", "abuelo", "grandma", "grandpa", "tenant", "renter", "roommate", "neighbor",
    "landlord", "inquilina", "inquilino", "vecina", "vecino",
    "grandkid", "mom", "dad", "wife", "husband",
))  # fmt: skip
"""Behind these an age is that of the one who is named."""
_STREETS = frozenset((
    "st", "street", "ave", "avenue", "rd", "road", "ct", "court", "dr", "drive", "blvd", "ln", "lane", "way", "trl", "trail",
    "pl", "place", "cir", "circle", "loop", "pkwy", "hwy", "nw", "ne", "sw", "se", "nm", "apt", "apartments", "manor",
    "estates", "village", "heights", "county", "family", "property", "properties", "management", "realty", "here",
))  # fmt: skip
_KINDS = frozenset((
    "gas", "electric", "elec", "propane", "lp", "induction", "used", "old", "new", "nuevo", "nueva",
    "little", "small", "big", "older", "newer",
    "vented", "load", "loader", "built", "slide", "portable", "counter", "undercounter", "countertop", "stackable", "upright",
    "chest", "commercial", "coin", "white", "black", "stainless", "mini", "drawer", "top", "front", "double", "single", "side",
    "door", "french", "convection", "pump", "empotrado", "empotrada", "electrica", "electrico", "chico", "chica", "grande",
    "frontal", "vertical", "horizontal", "vieja", "viejo", "induccion", "duplex", "same", "mismo", "misma", "in",
))  # fmt: skip
"""What tells a machine's kind between its name and its maker."""
_SPANISH_KINDS = frozenset((
    "empotrado", "empotrada", "electrica", "electrico", "chico", "chica", "grande", "frontal", "vertical", "horizontal",
    "induccion", "de",
))  # fmt: skip
_SIZE = re.compile(r"\d{1,2}(?:in|inch|\")?")
_NEGATED = frozenset(("not", "no", "nor", "ni", "isnt", "wasnt", "instead", "of", "was", "era", "than", "old"))
_MINE = frozenset(("my", "our", "mi", "nuestra", "nuestro"))
_ANSWERS = frozenset(("a", "an", "una", "que", "its", "is", "es", "like"))
_OF_PLACES = frozenset(("from", "at", "by", "with", "call", "ask", "in", "near"))
_LABELS = (
    r"(?:tag|label|sticker|plate|nameplate|badge|logo|front|door|panel|card|receipt|manual|papers?|lid|etiqueta|placa|"
    r"tarjeta|recibo|"
    r"plaquita|calcomania|puerta|frente|it|machine)"
)
_CUE = re.compile(
    rf"(?:\b(?:brand|maker|manufacturer|mfr|mfg|marca|fabricante|make(?= is| on it|:))(?: name)?(?: (?:is|on it is|says|"
    rf"es|dice|named|creo que|creo q|creo|parece que|i think is|i think|q es|"
    r"called|de)|[:=])*"
    rf"|\bname on (?:it|the \w+|there)(?: is| says|:)*|\bnombre (?:que trae |que dice )?(?:es)?|\bmade by|"
    rf"\b{_LABELS}\W+(?:\w+\W+)?"
    r"(?:says?|reads?|dice|pone|trae)|\b(?:looks|look) like|\bparece(?: que es)?)\s+(?:an? |the |una? |la |el )?[\"“'‘]?$"
)
"""What leads up to a maker's name: “mfr”, “name on it is”, “tag says”."""
_NAMED_AFTER = re.compile(
    r"[\"”'’]?,?\s+(?:is (?:the|its) (?:make|brand|maker|manufacturer)|(?:on|en) (?:the|la|el) (?:front|door|tag|"
    r"label|puerta|"
    r"frente|panel|etiqueta)|brand\b|i (?:think|believe|guess) it says|it says|is what it says|es la marca|es el nombre|"
    r"dice (?:en|la|el|ahi))"
)
_SPELLED = re.compile(r"\b[a-z](?:[-. ]{1,2}[a-z]){3,}\b")
_TAKEN_BACK = re.compile(
    r"\b(?:no,? (?:wait|scratch that|sorry)|scratch that|i mean|correction|digo|perdon|mejor dicho|corrijo)\b"
)


def looks_ordinary(form: str) -> bool:
    """Whether *form*, which no list holds, ends as verbs, diminutives and such words do."""
    return _NO_MAKER.search(form) is not None


def surely_ordinary(form: str) -> bool:
    """Whether *form* is a number, or ends as no maker's name does."""
    return _SURELY_ORDINARY.search(form) is not None


class UnlistedMakers:
    """Finds makers by where a word that nobody knows stands. *knows*: words; *names*: people's names."""

    def __init__(self, knows: Callable[[str], bool], names: Collection[str]) -> None:
        self._knows, self._names = knows, names

    def told(self, normal: Normal, mentions: Mentions, besides: str, *, asked: bool) -> str | None:
        """The maker told of a machine that is named or under discussion. besides: what is known to be a name or an address."""
        ends = {m.end for m in mentions.found if not m.implied}
        machines = [(normal.words[m.start].start, normal.words[m.end - 1].end) for m in mentions.found if not m.implied]
        known = bool(mentions.found or mentions.about or asked)
        shouted = normal.text.isupper()
        found: list[tuple[int, str]] = []
        for at, word in enumerate(normal.words):
            shown = normal.text[word.start : word.end]
            capital = shown[:1].isupper() and not shouted
            if capital and besides and in_a_name(shown, besides):
                continue
            if not (capital or len(shown) >= _SURELY) or not self._unknown(word, shown):
                mended = self._slips_into_a_word(word, shown)
                if mended and (known or is_owned_kind(normal, at)) and stands_for_maker(normal, at, machines):
                    found.append((word.start, shown))
                continue
            if (known or is_owned_kind(normal, at)) and may_name(word.form) and stands_for_maker(normal, at, machines):
                found.append((word.start, shown))
                continue
            if self._of_people(normal, at) or not (capital or not looks_ordinary(word.form)):
                continue
            named = bool(mentions.found)
            if (known and self._led_up_to(normal, at, capital=capital, asked=asked)) or (
                shown not in besides
                and (
                    (capital and named and self._in_one_breath(normal, at))
                    or _described(normal, at, ends, capital=capital, known=named)
                )
            ):
                found.append((word.start, shown))
        return _meant(normal.folded, found) or (_spelled_out(normal) if asked else None)

    def _unknown(self, word: Word, shown: str) -> bool:
        if word.was or word.emoji or len(shown) < SHORTEST or not shown.isalpha():
            return False
        return not (self._knows(word.form) or word.form in self._names or surely_ordinary(word.form))

    def _slips_into_a_word(self, word: Word, shown: str) -> bool:
        """Whether a long word was mended into another that it is hardly a slip of."""
        typed = word.was
        return bool(typed) and len(shown) > _SURELY and shown.isalpha() and is_far_slip(word) and may_name(str(typed))

    def _of_people(self, normal: Normal, at: int) -> bool:
        """Whether the word at *at* is part of a name or a street: “Mrs. Abernathy”, “Thaddeus Okafor”, “Ocotillo Trl”."""
        words = normal.words
        before, after = words[at - 1] if at else None, words[at + 1] if at + 1 < len(words) else None
        if before and (before.form in _TITLES or (words[at].brk == 0 and before.form in self._names)):
            return True
        if _NUMBER_NEXT.match(normal.folded, words[at].end):
            return bool(before and before.form in KIN)
        if not after or after.brk:
            return bool(after and (after.form == "nm" or (after.form.isdigit() and len(after.form) == 5)))
        shown = normal.text[after.start : after.end]
        return after.form in _STREETS or (after.form in self._names and shown[0].isupper())

    def _in_one_breath(self, normal: Normal, at: int) -> bool:
        """Whether the word in capitals at *at* stands beside an age, or alone in capitals where a machine is told of."""
        word, before = normal.words[at], normal.words[at - 1].form if at else ""
        if word.brk or before in KIN or before in _NEGATED - {"old", "no", "of", "was"}:
            return False
        return bool(_AGE_NEXT.match(normal.folded, word.end)) or beside_an_age(normal, at) or leads_to_maker(normal, at)

    def _led_up_to(self, normal: Normal, at: int, *, capital: bool, asked: bool) -> bool:
        """Whether what stands about the word says that it is the maker, or it is the answer to that question."""
        word, words = normal.words[at], normal.words
        before = words[at - 1].form if at else ""
        if before in _NEGATED and word.brk == 0:
            return False
        if _CUE.search(normal.folded[: word.start]) or _NAMED_AFTER.match(normal.folded, word.end):
            return True
        if before in ("una", "un") and at > 1 and (words[at - 2].form in ("es", "son") or words[at - 2].form in _KINDS):
            return at + 1 == len(words) or words[at + 1].brk > 0 or words[at + 1].form in ("de", "y", "que", "con")
        told = capital or at == 0 or word.brk > 0 or before in _ANSWERS
        article = before in ("a", "an", "the", "una") and word.brk == 0
        return (
            asked
            and told
            and not (word.brk == 0 and before in _OF_PLACES)
            and not (article and at > 1 and words[at - 2].form in _NEGATED)
        )


def _described(normal: Normal, at: int, ends: Collection[int], *, capital: bool, known: bool) -> bool:
    """Whether the word stands as the maker in a machine's description: “gas range, Corvane, …”, “Tolvane TC15”."""
    words = normal.words
    word, last = words[at], at + 1 == len(words)
    starts, stops = at == 0 or word.brk > 0, last or words[at + 1].brk > 0
    before = words[at - 1].form if at else ""
    kind = at > 0 and (at in ends or before in _KINDS or bool(_SIZE.fullmatch(before)))
    number_next = bool(_NUMBER_NEXT.match(normal.folded, word.end))
    if not ends:
        beside = _beside_description(normal, at, ends)
        apart = starts and stops and (known or beside)
        if not capital:
            return known and ((apart and beside) or (number_next and (starts or kind or before in _MINE)))
        return (at > 0 and (apart or (kind and stops and known))) or (
            starts and bool(_MODEL_NEXT.match(normal.folded, word.end))
        )
    if capital:
        if at == 0:
            return number_next or (
                stops and len(words) > 1 and (at + 1 in {m - 1 for m in ends} or words[1].form.isdigit())
            )
        is_one = at > 1 and stops and before in ("is", "es") and at - 1 in ends
        return (
            is_one
            or (starts and (stops or number_next or words[at + 1].form in _KINDS))
            or (kind and (stops or number_next))
        )
    return (
        (starts and stops and _beside_description(normal, at, ends))
        or (number_next and (starts or kind or before in _MINE))
        or _behind_spanish_name(normal, at, ends)
    )


def _behind_spanish_name(normal: Normal, at: int, ends: Collection[int]) -> bool:
    """“el horno empotrado tolvane”: in Spanish the maker follows the machine's name, and what tells its kind."""
    words = normal.words
    first = at
    while (
        first > 0
        and words[first].brk == 0
        and first not in ends
        and (words[first - 1].form in _KINDS or words[first - 1].form == "de")
    ):
        first -= 1
    kind = words[first if first < at else at - 1].form
    return first in ends and words[first].brk == 0 and kind in _SPANISH_KINDS


def _beside_description(normal: Normal, at: int, ends: Collection[int]) -> bool:
    """Whether the piece before or behind tells a machine's name or its age: in small letters a word alone says little."""
    before = normal.folded[: normal.words[at].start].rstrip(" ,.;")
    after = normal.folded[normal.words[at].end :]
    return (
        at in ends
        or bool(re.search(r"\b(?:years?|yrs?|anos)(?: old)?$", before))
        or bool(
            re.match(
                r"[,.;]\s*(?:maybe |about |like |como )?(?:\d{1,2}(?:ish|\+)?|an?|one|two|un|dos)\s?(?:years?|yrs?|yo|"
                r"y/o|y\.o|anos?)\b|"
                r"[.,;]\s*(?:maybe|about|like|approx|roughly|prob\w*|around|como|unos) \d{1,2}(?:ish)?\s*(?:[.,;!?\n]|$)",
                after,
            )
        )
    )


def _meant(folded: str, found: list[tuple[int, str]]) -> str | None:
    """The first of *found*, or what was said in its stead, or the whole of which it is the beginning."""
    if not found:
        return None
    for start, shown in found[1:]:
        whole = shown.casefold().startswith(found[0][1].casefold())
        if whole or _TAKEN_BACK.search(folded, found[0][0], start):
            return shown
    return found[0][1]


def _spelled_out(normal: Normal) -> str | None:
    """“o s t r a n d”, letter by letter."""
    spelled = _SPELLED.search(normal.folded)
    return re.sub(r"[-. ]", "", normal.text[spelled.start() : spelled.end()]) if spelled else None
