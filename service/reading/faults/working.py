"""
Whether a function that is named is told to work: “the drum turns but no heat”, “light comes on”, “sí se llena”.

A plain statement in the present counts; a wish, a story, a moment (“every time it spins”) and a limit (“runs for a
minute”) do not.
"""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.faults.turning import all_but, somebody_does, takes_to_dry, turned_again
from service.reading.faults.verbless import is_a_state
from service.reading.words.matching import Hit
from service.reading.words.normalising import CONTRASTS, Word
from service.reading.words.slips import behind_slip

MOST_AFTER_IT = 3
"""Words that may follow before the “but” or the end of the statement ("fills with water but never agitates")."""

_STATES = frozenset(["does", "do", "still", "si", "sigue", "both", "yes"])
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
    "not", "no", "without", "sin", "wait", "sound", "sounds", "suena", "just", "nomas",
))  # fmt: skip
"""Words of the same statement that make of it a moment, a manner or a condition."""

_LIMITS = frozenset((
    "for", "then", "until", "till", "only", "slow", "slowly", "slower", "despacito", "despacita", "slo",
    "weak", "weakly", "loud", "loudly",
    "barely", "hardly", "little", "halfway", "half", "too", "warm", "lukewarm", "constantly", "nonstop", "forever",
    "continuously", "bit", "low", "sometimes", "about", "partially", "partly", "by", "when", "if", "like", "less",
    "late", "hard", "funny", "weird", "bad", "badly", "poorly", "rough", "intermittently", "randomly", "itself",
    "and", "around", "over", "out", "lento", "lenta", "despacio", "poco", "poquito", "apenas", "solo", "mal",
    "uneven", "unevenly", "cochina", "sucia", "puerca", "dirty", "hotter", "louder", "disparejo", "medio", "mucho",
    "demasiado", "nomas", "sola", "solito", "raro", "feo", "fuerte", "tibio", "tibia", "un", "por",
    "hasta", "rato", "ratito", "veces",
))  # fmt: skip
"""Words behind a function that say that it works badly, too much, for a while or by itself."""

_BUT_HOW = frozenset((
    "slow", "slowly", "slower", "weak", "weakly", "low", "uneven", "unevenly", "cochina", "sucia", "puerca", "dirty",
    "barely", "hardly", "takes", "lento",
    "lenta", "despacio", "despacito", "lentamente", "poquito", "tarda", "disparejo", "tiny",
))  # fmt: skip
"""Words right behind a "but" that say how badly it works: “it drains but really slow”."""

WORDS_TO_HOW = 3


_JOINERS = frozenset(["and", "n", "y", "e"])
_NEW_SUBJECTS = frozenset(
    ["the", "so", "all", "everything", "todo", "its", "my", "no", "el", "la", "los", "las", "mi", "tambien"]
)
_PRAISE = frozenset(["fine", "ok", "okay", "good", "great", "well", "perfect", "perfectly", "tight", "normal", "bien"])

_PAST = frozenset((
    "ran", "came", "went", "spun", "began", "froze", "did", "lit", "made", "kept", "had", "got", "was", "drank",
    "shook", "took", "shut",
))  # fmt: skip


def told_to_work(
    words: Sequence[Word],
    start: int,
    end: int,
    clause: tuple[int, int],
    *,
    spanish: bool = False,
    openers: frozenset[int] = frozenset(),
    named: frozenset[int] = frozenset(),
) -> bool:
    """
    Whether the function at words *start* to *end* is stated to work in *clause* (its first and behind its last word); at
    *openers* something else is spoken of: “turns on plate spins”; *named*: where machines are named
    (“ya tira el agua el lavaplatos”).
    """
    first, last = clause
    last, but = all_but(words, end, _before_name(words, named, end, last))
    contrasted = but or (last < len(words) and words[last].form in CONTRASTS and words[last].brk < 2)
    end = turned_again(words, start, end)
    if (_repeated(words, start, end) and not contrasted) or _only_then(words, last):
        return False
    if spanish and words[start].form == "llena" and words[start - 1].form not in _SELF and _says_of(words, start + 1):
        return False
    if _went_back_to(words, start):
        return True
    opens = next((at for at in range(start, first, -1) if words[at].brk), first)
    opens = behind_slip(words, opens, start)
    opens += words[opens].form in _ANSWERS and opens + 1 < start and words[opens + 1].form in _ANEW | _ARTICLES
    if any(words[at].form in _ONLY_A_MOMENT for at in range(opens, start)):
        return False
    if not _in_the_present(words, start, end, first, contrasted=contrasted, spanish=spanish):
        return False
    praised = words[end - 1].form in _PRAISE and words[end : end + 1] and words[end].form in ("it", "its")
    after = (
        [w.form for w in words[end:last]]
        if praised
        else _same_statement(words[end : last if spanish else _next(words, openers, end, last)])
    )
    if len(after) == 1 and after[0] in _JOINERS and _then_another(words, last):
        after = []
    if spanish and len(after) == 2 and after[0] in _ARTICLES and not _somebody_did(words, start, first):
        after = []  # "está fría la comida": the subject stands last
    after = [form for form in _not_compared(after) if form not in _ADJUNCTS]
    after = [] if after in (["too"], ["also"]) else after
    how = words[last + 1 : last + 1 + WORDS_TO_HOW]
    if contrasted and any(word.form in _BUT_HOW for word in how) and not takes_to_dry(words, last):
        return False
    return len(after) <= (MOST_AFTER_IT if contrasted else 1) and not any(form in _LIMITS for form in after)


def _not_compared(after: list[str]) -> list[str]:
    """The words behind a function, none where it is only compared: “blue as can be”, “dura como piedra”."""
    compared = after[:1] in (["as"], ["como"]) and not any(form.isdigit() for form in after)
    return [] if compared and (_LIMITS - {"un"}).isdisjoint(after) else after


def _next(words: Sequence[Word], openers: frozenset[int], first: int, last: int) -> int:
    """Where something else begins, if nothing but small words stands before it."""
    for at in range(first, last):
        if at in openers or (at + 1 in openers and words[at].form in _ARTICLES):
            return at
        if words[at].form not in _SMALL:
            break
    return last


def _somebody_did(words: Sequence[Word], start: int, first: int) -> bool:
    """“ya limpié el filtro”, typed without its accent."""
    before = words[start - 1].form if start > first else ""
    return before in ("ya", "le", "lo", "la", "me", "que") and words[start].form.endswith("e")


_ANSWERS = frozenset(["no", "nope", "nah"])
"""“no its dry underneath”: it answers, and denies nothing of what follows."""

_ADJUNCTS = frozenset((
    "at", "the", "end", "of", "cycle", "again", "now", "anyway", "otherwise", "though", "tho", "today", "already", "at",
    "everything", "y", "todo", "ahorita", "ahora", "inside", "right",
    "otra", "vez", "de", "nuevo",
))  # fmt: skip
"""Words behind a function that say when or where, and take nothing from it."""


def _then_another(words: Sequence[Word], at: int) -> bool:
    """“it fills up and then it just sits there”: another statement follows, with a subject of its own."""
    return at + 1 < len(words) and words[at].form == "then" and words[at + 1].form in _ANEW | _ARTICLES


def _before_name(words: Sequence[Word], named: frozenset[int], first: int, last: int) -> int:
    """Where the machine's name begins that the statement ends with, with its article."""
    at = first + 1 if first < last and words[first].form in _ARTICLES else first
    return first if at < last and at in named and not words[first].brk else last


def openers(hits: Sequence[Hit], words: Sequence[Word]) -> frozenset[int]:
    """
    Where something else begins to be spoken of without a comma: at a part, at a function of several words, at a verb of the
    present (“turns on plate spins light on”, “fills drains spins”).
    """
    return frozenset(
        hit.start
        for hit in hits
        if hit.payload.role == "thing"
        or (hit.payload.role == "function" and (hit.end - hit.start > 1 or _third_in_english(words[hit.start])))
    )


def _same_statement(behind: Sequence[Word]) -> list[str]:
    """
    The words *behind* a function without what begins anew: “the burners work and so does the oven”, “works fine popsicles are
    hard”, “spins no heat”, “heats, drum doesn't turn”. A limit behind the comma stays: “it drains, slowly”.
    """
    after = [word.form for word in behind]
    for at, form in enumerate(after):
        following = after[at + 1] if at + 1 < len(after) else ""
        if form in _JOINERS and following and (following in _NEW_SUBJECTS or (not at and _third_in_english(behind[1]))):
            return after[:at]
        if at == 0 and form in _PRAISE and following and following not in _LIMITS:
            return after[:1]
        if behind[at].brk and form not in _LIMITS and following not in _LIMITS:
            return after[:at]
        if at and after[at - 1] not in _SMALL:
            return after
        if form in _ANEW or (form in _LACKS and following not in _NO_LONGER) or somebody_does(form, following):
            return after[:at]
    return after


_ANEW = frozenset(
    ["it", "its", "i", "im", "there", "theres", "they", "theyre", "thats", "wont", "doesnt", "dont", "cant", "isnt"]
)


_SMALL = _PRAISE | frozenset(["up", "water", "with", "out", "on", "around", "freely", "agua", "de"])
"""Words that may stand between a function and what begins anew without a comma."""

_LACKS = frozenset(["no", "nothing", "zero", "sin", "never"])
_NO_LONGER = frozenset(["more", "longer", "mas", "good", ""])
"""“spins no more” says the contrary of “spins no heat”."""

_MOODS = frozenset(["it", "they", "its", "quiere", "quieren", "se"])


def _only_then(words: Sequence[Word], at: int) -> bool:
    """Whether it does so only at times: “buttons work when they feel like it”, “spins until it gets hot”."""
    if at >= len(words) or words[at].brk == 2:
        return False
    if words[at].form in ("until", "till", "unless"):
        return True
    return words[at].form in ("when", "if", "cuando") and at + 1 < len(words) and words[at + 1].form in _MOODS


_SELF = frozenset(["se", "si", "le"])


def _says_of(words: Sequence[Word], at: int) -> bool:
    """“llena de agua”: full, not "fills"."""
    return at < len(words) and words[at].form == "de"


def _repeated(words: Sequence[Word], start: int, end: int) -> bool:
    """“it fills and fills”, “corre y corre”: it does so too much."""
    again = start >= 2 and words[start - 1].form in _JOINERS and words[start - 2].form == words[start].form
    return again or (end + 1 < len(words) and words[end].form in _JOINERS and words[end + 1].form == words[start].form)


_WENT_BACK = frozenset(["volvio", "volvieron", "regreso"])
"""“ya volvió a enfriar”: it does so again."""


def _went_back_to(words: Sequence[Word], start: int) -> bool:
    return start >= 2 and words[start - 1].form == "a" and words[start - 2].form in _WENT_BACK


def _in_the_present(
    words: Sequence[Word], start: int, end: int, first: int, *, contrasted: bool, spanish: bool
) -> bool:
    """Whether the verb stands as in “it drains”, “does drain” or “calienta”, with no one who wishes or does it."""
    before = words[start - 1].form if start > first and not words[start].brk else ""
    if end - start > 1 and is_a_state(words, start, end):
        leads = (
            words[start - 2].form if before in _ARTICLES and start - 1 > first and not words[start - 1].brk else before
        )
        if leads in _ARTICLES or leads not in _NO_STATEMENT:
            return True
    present = _third_in_spanish if spanish else _third_in_english
    inside = range(start, end)
    several = not spanish and end - start > 1 and _is_several(words[start])
    if before in _STATES or (several and before not in _NO_STATEMENT):
        return True
    if before in _NO_STATEMENT:
        return before in _ARTICLES and (several or any(present(words[at]) for at in inside[1:]))
    if any(words[at].form in _PAST or (words[at].form.endswith("ed") and len(words[at].form) > 4) for at in inside):
        return False
    if not spanish and words[start].form.endswith("ing"):
        follows = words[end].form if end < len(words) and not words[end].brk else ""
        return follows in _ONCE_MORE or before in _GOING_ON
    return any(present(words[at]) for at in inside) or (contrasted and bool(before) and not spanish)


def _is_several(word: Word) -> bool:
    """“the burners light”: after a plural no ending tells the present."""
    return word.form.endswith("s") and word.form not in ("is", "its", "this", "was", "has", "does")


_GOING_ON = frozenset(["is", "its", "are", "theyre"])
_ONCE_MORE = frozenset(["again", "now"])
"""“draining now”, “it's spinning again”: under way, and so done."""


def _third_in_english(word: Word) -> bool:
    form = word.form
    return form in ("is", "are", "works", "its", "thats", "still") or (
        form.endswith("s") and form != word.en and form not in ("this", "its", "was")
    )


def _third_in_spanish(word: Word) -> bool:
    form = word.form
    return (
        form != word.es
        and form.endswith(("a", "e", "an", "en", "ando", "iendo", "yendo"))
        and not form.endswith(("aba", "ia", "ada", "ida"))
    )
