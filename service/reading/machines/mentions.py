"""Which appliances a text names or implies, and which of them a word belongs to."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from service.reading.machines.belonging import ARTICLES, PART_OF, joined_parts
from service.reading.machines.renaming import names_another, without_slips
from service.reading.machines.whence import without_where
from service.reading.words.clauses import Clause
from service.reading.words.marks import Marks
from service.reading.words.matching import Hit
from service.reading.words.normalising import CONTRASTS, Word

UNKNOWN = "unknown"
OTHER = "other"

USUAL = frozenset(["washer", "dryer", "dishwasher", "refrigerator", "freezer", "range"])
"""What a home has and calls about (common practice, no source): where nothing tells the machine, the short
wordings of another's own rules ("stop", "water") say nothing."""

MANY_WORDS = 4
"""So long a wording tells an unusual machine also beside another that is under discussion."""

_IN_ONE_BREATH = 4
"""How far behind two machines named together what is said of both may begin, in words."""

MOST_NAMED = 40
"""Names of one text that are considered; a text with more says nothing."""


@dataclass(frozen=True, slots=True)
class Mention:
    """An appliance named at words ``start`` to ``end``. implied: told by what was said of it, not named."""

    appliance: str
    start: int
    end: int
    implied: bool = False


@dataclass(frozen=True, slots=True)
class Mentions:
    """All mentions of a text, in order; ``about`` is the machine under discussion before it."""

    found: tuple[Mention, ...]
    about: str | None

    @property
    def appliances(self) -> tuple[str, ...]:
        """The appliances named or implied, each once, in order."""
        return tuple(dict.fromkeys(mention.appliance for mention in self.found))

    def name_another(self, words: Sequence[Word]) -> bool:
        """Whether the text begins by naming another machine in place of the one under discussion."""
        return self.about is not None and names_another(self.found, words, self.about)

    def owner(self, hit: Hit, clause: Clause) -> str | None:
        """
        The appliance that *hit* is about, ``unknown`` when none is sure, None when it cannot be about any that is
        named.
        """
        allowed = hit.payload.appliances
        fits = [m for m in self.found if not allowed or m.appliance in allowed]
        here = [m for m in fits if clause.start <= m.start < clause.end]
        if here:
            return min(here, key=lambda m: _distance(m, hit)).appliance
        if any(clause.start <= m.start < clause.end and not m.implied for m in self.found):
            return None
        before = [m for m in fits if m.start < hit.start]
        if before:
            return before[-1].appliance
        if fits:
            return fits[0].appliance
        if any(not m.implied for m in self.found) or (self.found and not hit.payload.names):
            return None
        return self._without_mention(hit)

    def last_before(self, start: int) -> str | None:
        """The machine named last before word *start*, if one is."""
        named = [m for m in self.found if not m.implied and m.start < start]
        return named[-1].appliance if named else None

    def named_before(self, hit: Hit) -> str | None:
        """The machine named before a part, if it has such a part: “hood: both lights ok, grease on the stove”."""
        last = self.last_before(hit.start)
        return last if last is not None and last in hit.payload.appliances else None

    def possible(self) -> Callable[[Hit], bool]:
        """
        Whether a phrase can be about a machine of this text at all: where not, ``owner`` gives none. Told by what the phrase
        stands for, so that most phrases need no closer look.
        """
        named = frozenset(m.appliance for m in self.found)
        surely = any(not m.implied for m in self.found)
        about = frozenset([self.about]) if self.about else frozenset()

        def fits(hit: Hit) -> bool:
            meaning = hit.payload
            allowed = meaning.appliances
            if not allowed or not allowed.isdisjoint(named):
                return True
            if surely or (named and not meaning.names):
                return False
            return (
                bool(meaning.names)
                or (not about and (not meaning.own or not allowed.isdisjoint(USUAL)))
                or (not allowed.isdisjoint(about))
            )

        return fits

    def together(self, owner: str, hit: Hit, words: Sequence[Word]) -> list[str]:
        """The machines named in one breath with *owner* before *hit* ("washer and dryer"), if *hit* can be about them."""
        if len(self.found) < 2:
            return []
        allowed = hit.payload.appliances
        names = [m for m in self.found if not m.implied and m.end <= hit.start]
        apart = [n for n in range(1, len(names)) if not _one_breath(words[names[n - 1].end : names[n].start])]
        names = names[apart[-1] :] if apart else names
        pairs = [
            (a, b) for a, b in pairwise(names) if b.appliance != a.appliance and hit.start - b.end <= _IN_ONE_BREATH
        ]
        both = {m.appliance for pair in pairs for m in pair}
        return [code for code in sorted(both - {owner}) if owner in both and (not allowed or code in allowed)]

    def _without_mention(self, hit: Hit) -> str | None:
        allowed = hit.payload.appliances
        if self.about and (not allowed or self.about in allowed):
            return self.about
        if hit.payload.names and len(allowed) == 1 and (allowed & USUAL or hit.length >= MANY_WORDS):
            return str(next(iter(allowed)))
        if hit.payload.own and not allowed & USUAL:
            return None
        return None if self.about and allowed else UNKNOWN


_AND = frozenset(["and", "n", "y", "e", "plus", "also"])


def _one_breath(between: Sequence[Word]) -> bool:
    """Whether *between* two names stands nothing but an "and" and what points to the second: “and my”, “y el”."""
    if len(between) == 1:
        return True
    return 0 < len(between) <= 3 and between[0].form in _AND and all(word.form in ARTICLES for word in between[1:])


def find_mentions(
    hits: Sequence[Hit],
    words: Sequence[Word],
    marks: Marks,
    implied: Sequence[tuple[int, int, str]],
    events: Sequence[tuple[int, int]],
    about: str | None,
) -> Mentions:
    """
    The mentions among *hits*. ``implied``: words that imply an appliance, used only when none is named or under discussion.
    ``events``: words that tell what happened before ("a new disposal"), where a name is no mention as long as another
    machine is spoken of.
    """
    never = marks.at("not_names")
    named = _named(hits, [*never, *events])
    if not named and not about and not implied:
        named = [m for m in _named(hits, never) if not _is_since(m, words)]
    placed = [m for m in named if _is_place(m, words, marks)]
    real = [m for m in named if m not in placed]
    named = real if real or about else placed
    # A faucet or a furnace beside a machine of ours is where it stands or what it is like, not what the text is about.
    named = [m for m in named if m.appliance != OTHER] or named
    named = without_where(_without_occasions(named, words), words)
    named = without_slips(named, words)
    named = joined_parts(named, words, about)
    if not named and not about:
        named = [Mention(code, start, end, implied=True) for start, end, code in implied]
        named = _one_implied(named)
    return Mentions(tuple(named), about)


def _named(hits: Sequence[Hit], hidden: Sequence[tuple[int, int]]) -> list[Mention]:
    """The names among *hits* that do not stand in *hidden* words."""
    named = [
        Mention(h.payload.code, h.start, h.end)
        for h in hits
        if h.payload.kind == "name" and not any(a <= h.start and h.end <= b for a, b in hidden)
    ]
    return _longest(named[:MOST_NAMED])


_BEFORE_NAME = frozenset(
    ["of", "on", "in", "inside", "from", "at", "the", "my", "our", "de", "del", "la", "el", "mi", "en"]
)


def name_places(hits: Sequence[Hit], words: Sequence[Word]) -> frozenset[int]:
    """The words of names that stand inside a statement, after "of", "on", "in" and the like, with those small words."""
    hidden: set[int] = set()
    for hit in hits:
        if hit.payload.kind != "name" or hit.payload.code in PART_OF:
            continue
        at = hit.start
        while at > 0 and words[at - 1].form in _BEFORE_NAME and words[at].brk < 2:
            at -= 1
        if at < hit.start and at > 0 and words[at].form not in ARTICLES - {"de", "del"}:
            hidden.update(range(at, hit.end))
    return frozenset(hidden)


def _longest(mentions: list[Mention]) -> list[Mention]:
    kept: list[Mention] = []
    for mention in sorted(mentions, key=lambda m: (m.start - m.end, m.start)):
        if not any(mention.start < k.end and k.start < mention.end for k in kept):
            kept.append(mention)
    return sorted(kept, key=lambda m: m.start)


def _is_place(mention: Mention, words: Sequence[Word], marks: Marks) -> bool:
    """“next to the fridge”, “sounds like a dryer”: named only as a place or a comparison."""
    at = mention.start
    while at > 0 and words[at - 1].form in ARTICLES and not any(a < at <= b for a, b in marks.at("places")):
        at -= 1
    return any(b == at for _, b in marks.at("places")) or any(a <= mention.start < b for a, b in marks.at("places"))


_WHENEVER = frozenset(["when", "whenever", "while", "if", "cuando", "mientras", "si"])
_RUNNING = frozenset((
    "run", "use", "start", "turn", "running", "using", "prendo", "uso", "pongo", "enciendo", "corro", "echo", "prende",
    "prendemos", "usamos", "prenden", "usan",
))  # fmt: skip


_SINCE = frozenset(["after", "since", "before", "when", "once", "desde", "después", "despues", "tras", "cuando"])
_SINKS = frozenset(["sink", "sinks", "fregadero", "tarja", "lavatrastes", "lavaplatos"])


def _is_since(mention: Mention, words: Sequence[Word]) -> bool:
    """“since we got a new disposal”: the machine is named only as what happened before. Under a sink it is the one meant."""
    if mention.appliance == "disposal" and any(word.form in _SINKS for word in words):
        return False
    return any(word.form in _SINCE for word in words[max(0, mention.start - 5) : mention.start])


def _without_occasions(named: list[Mention], words: Sequence[Word]) -> list[Mention]:
    """*named* without what is named only as the occasion, where another is named besides: “if I run the dryer and the …”."""
    kept: list[Mention] = []
    last = None
    for mention in named:
        between: Sequence[Word] = words[last.end : mention.start] if last is not None else []
        joined = len(between) > 0 and between[0].form in _AND and _one_breath(between)
        if joined or _is_occasion(mention, words) or (kept and _is_at_work_then(mention, words)):
            last = mention
        else:
            kept.append(mention)
    return kept or named


def _is_occasion(mention: Mention, words: Sequence[Word]) -> bool:
    """“when i run the disposal”: somebody runs it at the time."""
    before = words[max(0, mention.start - 5) : mention.start]
    at = next((n for n, word in enumerate(before) if word.form in _WHENEVER), None)
    return at is not None and any(word.en in _RUNNING or word.form in _RUNNING for word in before[at:])


def _is_at_work_then(mention: Mention, words: Sequence[Word]) -> bool:
    """“it flickers when the dryer is on”: what is told stands before, in the same stretch, and nothing else follows."""
    at = mention.start - 1
    while at > 0 and words[at].form in ARTICLES and not words[at].brk:
        at -= 1
    if at < 1 or words[at].form not in _WHENEVER or words[at].brk or words[at - 1].form in CONTRASTS | _AND:
        return False
    end = mention.end + (mention.end < len(words) and words[mention.end].form in _IS)
    if end >= len(words) or words[end].brk or words[end].form not in _AT_WORK:
        return False
    return end + 1 == len(words) or words[end + 1].brk > 0


_IS = frozenset(["is", "s", "esta", "starts", "comes", "kicks"])
_AT_WORK = frozenset((
    "on", "running", "going", "runs", "starts", "drains", "draining", "rinses", "empties", "prendida", "prendido", "andando",
    "trabajando", "lavando", "desagua", "drena", "vacia", "enjuaga",
))  # fmt: skip


def _one_implied(named: list[Mention]) -> list[Mention]:
    """Implied appliances are kept only when they agree."""
    return named if len({m.appliance for m in named}) == 1 else []


def _distance(mention: Mention, hit: Hit) -> int:
    return hit.start - mention.end if mention.start <= hit.start else mention.start - hit.end + 1
