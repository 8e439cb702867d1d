"""
Whether a function that is named is told to work: “the drum turns but no heat”, “light comes on”, “sí se llena”.

A plain statement in the present counts; a wish, a story, a moment (“every time it spins”) and a limit (“runs for a
minute”) do not.
"""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.matching import Hit
from service.reading.normalising import CONTRASTS, Word

MOST_AFTER_IT = 3
"""Words that may follow before the “but” or the end of the statement ("fills with water but never agitates")."""


_STATES = frozenset(["does", "do", "still", "si", "sigue", "both"])
"""Words that make a statement of any form that follows: "it does drain", "sí enfría"."""

_NO_STATEMENT = frozenset((
    "to", "i", "we", "you", "u", "can", "could", "will", "would", "should", "let", "lets", "make", "made", "help",
    "please", "cant", "might", "may", "must", "need", "needs", "want", "wants", "before", "para", "que", "de", "a",
    "al", "yo", "lo", "puede", "pueden", "puedo", "quiero", "quiere", "debe", "deja", "dejo", "hace", "did", "was",
    "were", "had", "or", "nor", "gotta", "supposed", "the", "my", "for", "in", "on", "of", "un", "una", "el", "la",
    "en",
))  # fmt: skip
"""What stands before a verb that states nothing: a wish, a person who does it, an article before a noun."""

_ARTICLES = frozenset(["the", "my", "el", "la", "los", "las"])

_ONLY_A_MOMENT = frozenset((
    "time", "times", "vez", "during", "moment", "that", "which", "where", "whatever", "only", "solo", "how", "what",
    "cuando", "when", "after", "despues", "while", "as", "once", "sometimes", "veces", "ratos", "until", "till",
    "not", "no", "without", "sin", "wait", "sound", "sounds", "suena",
))  # fmt: skip
"""Words of the same statement that make of it a moment, a manner or a condition."""

_LIMITS = frozenset((
    "for", "then", "until", "till", "only", "slow", "slowly", "slower", "slo", "weak", "weakly", "loud", "loudly",
    "barely", "hardly", "little", "halfway", "half", "too", "warm", "lukewarm", "constantly", "nonstop", "forever",
    "continuously", "bit", "low", "sometimes", "about", "partially", "partly", "by", "when", "if", "like", "less",
    "late", "hard", "funny", "weird", "bad", "badly", "poorly", "rough", "intermittently", "randomly", "itself",
    "and", "around", "over", "out", "lento", "lenta", "despacio", "poco", "poquito", "apenas", "solo", "mal",
    "medio", "mucho", "demasiado", "nomas", "sola", "solito", "raro", "feo", "fuerte", "tibio", "tibia", "un", "por",
    "hasta", "rato", "ratito", "veces",
))  # fmt: skip
"""Words behind a function that say that it works badly, too much, for a while or by itself."""

_BUT_HOW = frozenset((
    "slow", "slowly", "slower", "weak", "weakly", "low", "uneven", "unevenly", "barely", "hardly", "takes", "lento",
    "lenta", "despacio", "despacito", "lentamente", "poquito", "tarda", "disparejo", "tiny",
))  # fmt: skip
"""Words right behind a "but" that say how badly it works: “it drains but really slow”."""

WORDS_TO_HOW = 3

_JOINERS = frozenset(["and", "n", "y", "e"])
_NEW_SUBJECTS = frozenset(["the", "so", "its", "my", "no", "el", "la", "los", "las", "mi", "tambien"])
_PRAISE = frozenset(["fine", "ok", "okay", "good", "great", "well", "perfect", "perfectly", "tight", "normal", "bien"])

_PAST = frozenset((
    "ran", "came", "went", "spun", "began", "froze", "did", "lit", "made", "kept", "had", "got", "was", "drank",
    "shook", "took", "shut",
))  # fmt: skip


def told_to_work(
    words: Sequence[Word], start: int, end: int, clause: tuple[int, int], *, spanish: bool = False
) -> bool:
    """
    Whether the function at words *start* to *end* is stated to work in *clause* (its first and behind its last word).
    """
    first, last = clause
    contrasted = last < len(words) and words[last].form in CONTRASTS and words[last].brk < 2
    opens = next((at for at in range(start, first, -1) if words[at].brk), first)
    if any(words[at].form in _ONLY_A_MOMENT for at in range(opens, start)):
        return False
    if not _in_the_present(words, start, end, first, contrasted=contrasted, spanish=spanish):
        return False
    after = _same_statement([words[at].form for at in range(end, last)])
    if contrasted and any(word.form in _BUT_HOW for word in words[last + 1 : last + 1 + WORDS_TO_HOW]):
        return False
    return len(after) <= (MOST_AFTER_IT if contrasted else 1) and not any(form in _LIMITS for form in after)


def insists(words: Sequence[Word], hit: Hit, negators: Sequence[tuple[int, int]]) -> bool:
    """“el agua sí la saca”, “congelar sí congela”, “enfriar enfría”: a function said to work, whatever stands before."""
    if hit.negated or any(end == hit.start for _, end in negators):
        return False
    inside = any(words[at].form == "si" for at in range(hit.start + 1, hit.end))
    return inside or _said_twice(words, hit.start, -1) or _said_twice(words, hit.end - 1, 1)


_SURELY = frozenset(["si", "se"])
"""What may stand between: “llenar sí se llena”."""


def _said_twice(words: Sequence[Word], at: int, step: int) -> bool:
    """Whether the verb at *at* stands twice, first to name it and then to say that it is so."""
    other = at + step
    while 0 <= other < len(words) and words[other].form in _SURELY:
        other += step
    if not 0 <= other < len(words):
        return False
    first, last = min(at, other), max(at, other)
    named, said = words[first], words[last]
    if any(word.brk for word in words[first + 1 : last + 1]):
        return False
    return named.form.endswith("r") and bool(named.es) and named.es == said.es and named.form != said.form


def _same_statement(after: list[str]) -> list[str]:
    """*after* without what begins anew: “the burners work and so does the oven”, “works fine popsicles are hard”."""
    for at, form in enumerate(after):
        if form in _JOINERS and at + 1 < len(after) and after[at + 1] in _NEW_SUBJECTS:
            return after[:at]
        if at == 0 and form in _PRAISE and len(after) > 1 and after[1] not in _LIMITS:
            return after[:1]
    return after


def _in_the_present(
    words: Sequence[Word], start: int, end: int, first: int, *, contrasted: bool, spanish: bool
) -> bool:
    """Whether the verb stands as in “it drains”, “does drain” or “calienta”, with no one who wishes or does it."""
    before = words[start - 1].form if start > first and not words[start].brk else ""
    present = _third_in_spanish if spanish else _third_in_english
    inside = range(start, end)
    if before in _STATES:
        return True
    if before in _NO_STATEMENT:
        # "the burners light": after a plural no ending tells the present
        several = end - start > 1 and words[start].form.endswith("s")
        return before in _ARTICLES and (several or any(present(words[at]) for at in inside[1:]))
    if any(words[at].form in _PAST or (words[at].form.endswith("ed") and len(words[at].form) > 4) for at in inside):
        return False
    return any(present(words[at]) for at in inside) or (contrasted and bool(before) and not spanish)


def _third_in_english(word: Word) -> bool:
    form = word.form
    return form in ("is", "are", "works") or (
        form.endswith("s") and form != word.en and form not in ("this", "its", "was")
    )


def _third_in_spanish(word: Word) -> bool:
    form = word.form
    return (
        form != word.es
        and form.endswith(("a", "e", "an", "en", "ndo"))
        and not form.endswith(("aba", "ia", "ada", "ida"))
    )
