"""
Consent words: who wants no more texts, who wants them again, who wants help. Sources T1, T8, T10, T11 and table T-A.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Literal, NamedTuple

from service.reading.words.lexicon import LANGUAGES, Lexicon
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word, Words

Consent = Literal["out", "in", "help"]
_CODES: dict[str, Consent] = {"opt_out": "out", "opt_in": "in", "help_word": "help"}
_VISITS = frozenset(["book", "cancel", "reschedule", "ask_status", "at_it"])
_STARTERS = frozenset(["no", "not", "dont", "never", "ya", "basta", "alto"])
"""With these a wish begins anew: "no, stop texting me" without its comma."""
_DO_NOT = frozenset(["dont", "not", "never", "didnt", "no"])
_WISHES = frozenset(["want", "wanna", "to", "please", "need", "ever"])
_BETWEEN = _WISHES | {"me", "nos"}
_TOLD_OF = frozenset(["you", "u", "yall", "they", "guys", "people"])
"""Who is complained of: "you don't stop texting me"."""
_COURTESIES = frozenset((
    "please", "ok", "okay", "thanks", "thank", "you", "now", "just", "already", "seriously", "hey", "hi", "hello", "um",
    "uh", "yes", "yeah", "period", "sir", "guys", "omg", "ugh", "lol", "por", "favor", "porfavor", "gracias", "ya", "si",
    "bueno", "oigan", "oiga", "nope", "and", "bro", "dude", "man",
    "maam", "people",
))  # fmt: skip
_LEADING = _COURTESIES - {"you"}
_OF_THINGS = frozenset(["it", "this", "that", "to", "not", "dont", "wont", "cant", "he", "she", "the"])
"""Behind these a "please stop" is said of something else: "make it please stop"."""


_STOP_SIGNS = frozenset("🛑⛔\ufe0f! .\n")
"""Of these signs alone a text is a stop sign."""

MISSING = "[…]"
"""Stands in a text where a piece of it never came: its last word alone is then not all that somebody wrote."""


class Worded(NamedTuple):
    """What wordings say of texting itself; heard: one of them stands there, though it may be turned round or excused."""

    says: Consent | None
    heard: bool


def consent_of(lexicon: Lexicon, typed: Words, text: str) -> Worded:
    """
    What *text*, its words as *typed*, says about texting itself: ``out``, ``in``, ``help``, or None.

    A listed word counts only when it is the whole text, whatever its case, punctuation or repetition; longer wordings count
    when they speak of messages, faint ones where nothing speaks of a machine or a visit. Spelling is never corrected into
    one. Of a text with a piece missing, no word is the whole.
    """
    if _is_stop_sign(text):
        return Worded("out", heard=True)
    if not any(lexicon.consent_trees[language].may_hit(typed) for language in LANGUAGES):
        return Worded(None, heard=False)
    words = _bare(typed)
    hits = [hit for language in LANGUAGES for hit in lexicon.consent_trees[language].hits(words, joined=True)]
    if not hits:
        return Worded(None, heard=False)
    alone = [hit for hit in hits if hit.payload.role == "alone" and hit.start == 0 and hit.end == len(words)]
    whole = alone if MISSING not in text else []
    for code, meant in _CODES.items():
        if any(hit.payload.code == code for hit in whole):
            return Worded(meant, heard=True)
    return Worded(_told(lexicon, words, hits, whole=MISSING not in text), heard=True)


def _is_stop_sign(text: str) -> bool:
    return ("🛑" in text or "⛔" in text) and _STOP_SIGNS.issuperset(text) and MISSING not in text


def _told(lexicon: Lexicon, words: Words, hits: Sequence[Hit], *, whole: bool) -> Consent | None:
    """What wordings within a longer text say; a single word only if the text is *whole* and the word stands apart."""
    harmless = [hit for language in LANGUAGES for hit in lexicon.consent_innocents[language].hits(words, joined=True)]
    innocent = [hit for hit in harmless if not _turned(hit, words)]
    for code, meant in _CODES.items():
        signs = [hit for hit in hits if hit.payload.code == code and hit.payload.role in ("sign", "faint")]
        told = [hit for hit in signs if not (hit.negated or _inside(hit, innocent) or _turned(hit, words))]
        if any(hit.payload.role == "sign" for hit in told):
            return meant
        faint = [hit for hit in told if hit.end - hit.start > 1 or (whole and _stands_apart(hit, words))]
        if faint and not _speaks_of_work(lexicon, words, faint):
            return meant
    return None


def _turned(hit: Hit, words: Words) -> bool:
    """Whether a "do not" before *hit* turns it round: "please don't stop texting me", "no borren mi número"."""
    if words[hit.start].brk or words[hit.start].form in _STARTERS:
        return False
    at = hit.start - 1
    while at >= 0 and words[at].form in _BETWEEN and not words[at].brk:
        at -= 1
    if at < 0 or words[at].form not in _DO_NOT:
        return False
    if words[at].form == "no" and (words[hit.start].form == "stop" or words[at + 1].form in _WISHES):
        return False
    return at == 0 or words[at - 1].form not in _TOLD_OF


def _stands_apart(hit: Hit, words: Words) -> bool:
    """Whether *hit* is a sentence of its own or ends one behind a courtesy: "who is this? stop", "could you please stop"."""
    start, end = hit.start, hit.end
    while start > 0 and not words[start].brk and words[start - 1].form in _LEADING:
        start -= 1
    while end < len(words) and not words[end].brk and words[end].form in _COURTESIES:
        end += 1
    if end < len(words) and not words[end].brk:
        return False
    return start == 0 or words[start].brk > 0 or (start < hit.start and words[start - 1].form not in _OF_THINGS)


def _speaks_of_work(lexicon: Lexicon, words: Words, besides: Sequence[Hit]) -> bool:
    """Whether a machine, what one does, or a visit is spoken of in words that are not those of *besides*."""
    for language in LANGUAGES:
        for hit in (*lexicon.trees[language].hits(words), *lexicon.hazard_trees[language].hits(words)):
            payload = hit.payload
            work = payload.kind in ("name", "symptom", "hazard") or payload.code in _VISITS
            if (
                work
                and payload.role == "sign"
                and not any(hit.start < other.end and other.start < hit.end for other in besides)
            ):
                return True
    return False


def _bare(typed: Words) -> Words:
    """The words without emoji and immediate repetitions."""
    if all(word.form != after.form and not word.emoji for word, after in pairwise(typed)) and not typed[-1].emoji:
        return typed
    bare: list[Word] = []
    for word in typed:
        if not (word.emoji or (bare and bare[-1].form == word.form)):
            bare.append(word)
    return Words(bare)


def _inside(hit: Hit, innocent: Sequence[Hit]) -> bool:
    """Whether an innocent wording takes *hit*'s words; one that *hit* leads up to and holds whole does not."""
    return any(
        i.payload.code == hit.payload.code
        and i.start < hit.end
        and hit.start < i.end
        and not (hit.start < i.start and i.end <= hit.end)
        for i in innocent
    )
