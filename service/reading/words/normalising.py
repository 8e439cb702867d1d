"""From what arrived to words: Unicode folded, accents forgiven, emoji and shorthand spelled out, positions kept."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import accumulate
from typing import Any, NamedTuple

from service.reading.words.stemming import stem_en, stem_es

MOST_WORDS = 420
"""Words of a text that are read; a text of 1,600 characters of ordinary language has about 320."""

MOST_KEPT = 20_000
"""Words whose stems are kept."""

WORD = re.compile(r"[a-z0-9]+(?:['’´`ʼ][a-z]+)*|[^\w\s]|\n|_")
APOSTROPHES = str.maketrans("", "", "'’´`ʼ")
_RUN = re.compile(r"(.)\1{2,}")
AUXILIARIES = frozenset((
    "does", "do", "did", "will", "can", "could", "would", "is", "are", "was", "were", "has", "have", "had", "am",
    "should",
))  # fmt: skip
_LINK = re.compile(r"(?:https?://|www\.)\S+", re.IGNORECASE)
_QUOTE = re.compile(r"^>.*$", re.MULTILINE)


@dataclass(slots=True)
class Word:
    """
    One word of a text. ``form``: folded lower case without apostrophes. ``en``, ``es``: its stems. ``was``: the form before
    spelling correction. ``emoji``: it was a sign. ``asks``: its sentence ends in a question mark. ``accented``: "sí", not "si".
    ``brk``: what stands before it: 0 nothing, 1 a comma or dash, 2 the end of a sentence.
    """

    form: str
    start: int
    end: int
    brk: int
    en: str = ""
    es: str = ""
    was: str | None = None
    emoji: bool = False
    asks: bool = False
    accented: bool = False

    def respell(self, form: str) -> Word:
        """The same word under another spelling."""
        return replace(self, form=form, en=stem_en(form), es=stem_es(form), was=self.was or self.form)


NEGATIONS = frozenset(["no", "never", "without", "nor", "sin", "ni", "nunca", "tampoco"])
"""Words beside the negative auxiliaries that turn a phrase round when they stand in its gap."""


CONTRASTS = frozenset(["but", "pero", "however", "aunque", "though", "sino"])
"""Words that turn from one statement to another."""


_SUBJECTS = frozenset(
    ["the", "my", "our", "it", "its", "i", "there", "theres", "they", "el", "la", "los", "las", "mi", "hay"]
)
"""Words with which another subject begins."""


_ZERO = frozenset(["zero", "cero"])
_OF_WHICH_NONE = frozenset((
    "heat", "warmth", "ice", "cubes", "water", "cold", "cooling", "suction", "power", "lights", "light", "noise", "sound",
    "response", "airflow", "air", "pressure", "display", "smell", "smoke", "leaks", "flame", "flames", "spin",
    "calor", "hielo", "hielos", "cubos", "agua", "frio", "luz", "luces", "fuerza", "ruido", "fugas", "gotas", "humo",
    "olor", "flama", "lumbre",
))  # fmt: skip
"""What there may be none of, so that "zero heat" is "no heat", and "set to zero" is a number."""


class Keys(NamedTuple):
    """
    What phrases are sought by, word for word; ``ends``: a sentence begins here; ``negations``: how many stand before;
    ``reached``: up to where a gap that begins there reaches: not over the next beginning of a sentence, nor over a "but" with a
    subject of its own behind it.
    """

    forms: list[str]
    english: list[str]
    spanish: list[str]
    ends: list[bool]
    negations: list[int]
    reached: list[int]


class Words(tuple[Word, ...]):
    """The words of a text; their keys are taken out once for all that is sought in them, and their questions are kept."""

    _keys: Keys | None = None
    asking: Any = None

    def keys(self) -> Keys:
        """The keys of the words, in their order."""
        if self._keys is None:
            negations = accumulate((word.en == "not" or word.form in NEGATIONS for word in self), initial=0)
            forms = [word.form for word in self]
            ends = [word.brk == 2 for word in self]
            self._keys = Keys(
                forms,
                [word.en for word in self],
                [word.es for word in self],
                ends,
                list(negations),
                _reached(forms, ends),
            )
        return self._keys


def _reached(forms: list[str], ends: list[bool]) -> list[int]:
    reached, stop = [0] * len(forms), len(forms)
    turning = not CONTRASTS.isdisjoint(forms)
    for at in range(len(forms) - 1, -1, -1):
        if ends[at]:
            stop = at
        elif turning and forms[at] in CONTRASTS and at + 1 < len(forms) and forms[at + 1] in _SUBJECTS:
            stop = at + 1
        reached[at] = stop
    return reached


@dataclass(frozen=True, slots=True)
class Normal:
    """
    A text as words; ``folded`` is as long as ``text``, lower case without accents, for patterns that need signs. corrected:
    some word was respelled.
    """

    text: str
    folded: str
    words: Words
    corrected: bool = False


@lru_cache(maxsize=4096)
def _fold_sign(sign: str) -> str:
    if "\u2000" <= sign <= "\u206f" and sign not in "\u2018\u2019\u201c\u201d\u2013\u2014\u2026\u2028\u2029":
        return " "
    plain = "".join(c for c in unicodedata.normalize("NFKD", sign) if not unicodedata.combining(c)).lower()
    return plain if len(plain) == 1 else (" " if not plain else plain[0])


def fold(text: str) -> str:
    """*text* in lower case without accents, exactly as long."""
    return text.lower() if text.isascii() else "".join(map(_fold_sign, text))


class Normaliser:
    """Turns texts into words with one rulebook's shorthand and emoji; ``known`` says which forms are words."""

    def __init__(self, shorthand: Mapping[str, str], emoji: Mapping[str, str], known: Callable[[str], bool]) -> None:
        self._shorthand = {key: tuple(value.split()) for key, value in shorthand.items()}
        self._emoji = {key: tuple(value.split()) for key, value in emoji.items()}
        self._known = known
        self._kept: dict[str, tuple[str, str, str]] = {}

    def words(self, text: str) -> Normal:
        """The words of *text*. Links and quoted earlier lines count as a break, not as words."""
        composed = text if text.isascii() else unicodedata.normalize("NFC", text)
        folded = fold(composed)
        readable = _blank(folded) if "//" in folded or "www." in folded or ">" in folded else folded
        found: list[Word] = []
        brk = 2
        for match in WORD.finditer(readable):
            sign = match.group()
            if sign[0].isalnum():
                if len(found) >= MOST_WORDS:
                    break
                brk = self._add(found, sign, match.start(), match.end(), brk)
                if sign == "si" and found and composed[match.start() : match.end()] in ("sí", "Sí", "SÍ"):
                    found[-1].accented = True
            elif composed[match.start()] in self._emoji:
                spelled = self._emoji[composed[match.start()]]
                found.extend(_word(part, match.start(), match.end(), brk, emoji=True) for part in spelled)
                brk = 1
            else:
                brk = max(brk, _strength(sign, readable, match.start()))
                if sign == "?":
                    _mark_question(found)
        if "zero" in folded or "cero" in folded:
            _none_for_zero(found)
        if "medio dia" in folded:
            _one_word_for_noon(found)
        return Normal(composed, folded, Words(found))

    def _add(self, found: list[Word], sign: str, start: int, end: int, brk: int) -> int:
        kept = self._kept.get(sign)
        if kept is not None:
            form, english, spanish = kept
            found.append(Word(form, start, end, brk, english, spanish))
            return 0
        form = sign.translate(APOSTROPHES)
        if form not in self._shorthand and _RUN.search(form) and not form.isdigit():
            form = self._calm(form)
        if form == "not" and found and brk == 0 and found[-1].form in AUXILIARIES:
            last = found.pop()
            found.append(_word(merged_negation(last.form), last.start, end, last.brk))
            return 0
        spelled = self._shorthand.get(form)
        if spelled is None:
            found.append(_word(form, start, end, brk))
            self._keep(sign, found[-1])
            return 0
        for position, part in enumerate(spelled):
            found.append(_word(part, start, end, brk if position == 0 else 0))
        return 0

    def _keep(self, sign: str, word: Word) -> None:
        """Remember what *sign* is, unless that depends on the word before it."""
        if word.form != "not":
            if len(self._kept) > MOST_KEPT:
                self._kept.clear()
            self._kept[sign] = word.form, word.en, word.es

    def _calm(self, form: str) -> str:
        twice = _RUN.sub(r"\1\1", form)
        once = _RUN.sub(r"\1", form)
        if len(once) == 1 and self._known(once * 3):  # a hiss: “ssss” by the stove
            return once * 3
        return twice if self._known(twice) else once


def _word(form: str, start: int, end: int, brk: int, *, emoji: bool = False) -> Word:
    return Word(form, start, end, brk, stem_en(form), stem_es(form), None, emoji)


def merged_negation(auxiliary: str) -> str:
    """``does`` and ``not`` as the one word they are in speech, without its apostrophe."""
    return {"can": "cant", "will": "wont"}.get(auxiliary, auxiliary + "nt")


def _blank(folded: str) -> str:
    for pattern in (_LINK, _QUOTE):
        folded = pattern.sub(lambda m: "." + " " * (len(m.group()) - 1), folded)
    return folded


def _strength(sign: str, text: str, at: int) -> int:
    if sign == ".":
        return 1 if text[at - 1 : at] == "." or text[at + 1 : at + 2] == "." else 2
    if sign in "!?;\n:…¡¿":
        return 1 if sign in ":…" else 2
    return 1 if sign in ',-–—()/"“”*•&+' else 0


def _none_for_zero(found: list[Word]) -> None:
    """“zero heat”, “cero agua”: none of it."""
    for at, word in enumerate(found[:-1]):
        behind = found[at + 1]
        if word.form in _ZERO and behind.brk == 0 and behind.form in _OF_WHICH_NONE:
            found[at] = _word("no", word.start, word.end, word.brk)


def _one_word_for_noon(found: list[Word]) -> None:
    """“a medio día” is “a mediodía”, as most texts write it."""
    for at in range(len(found) - 1, 0, -1):
        half, day = found[at - 1], found[at]
        if half.form == "medio" and day.form == "dia" and day.brk == 0:
            found[at - 1 : at + 1] = [_word("mediodia", half.start, day.end, half.brk)]


def _mark_question(found: list[Word]) -> None:
    for word in reversed(found):
        word.asks = True
        if word.brk == 2:
            return
