"""Where the rules' own small words stand in a text: the signs of negation, time, doubt and whose it is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from service.reading.words.matching import Hit
from service.reading.words.normalising import Word

Spans = list[tuple[int, int]]


@dataclass(slots=True)
class Marks:
    """Where the rules' own small words stand in a text, by list."""

    spans: dict[str, Spans] = field(default_factory=dict)
    _starts: dict[str, frozenset[int]] = field(default_factory=dict)

    def at(self, name: str) -> Spans:
        """The places where list *name* was heard, in order."""
        return self.spans.get(name, [])

    def starts(self, name: str) -> frozenset[int]:
        """The first words of those places."""
        known = self._starts.get(name)
        if known is None:
            known = self._starts[name] = frozenset(start for start, _ in self.spans.get(name, []))
        return known


_ASKING = 3
"""So many words of a look-alike hide its "if" too: “a ver si me pueden ayudar” asks for help and supposes nothing."""


def gather_marks(hits: Sequence[Hit], words: Sequence[Word]) -> Marks:
    """The marks among *hits*: what a longer wording covers ("not only") is taken from the lists inside it."""
    spans: dict[str, Spans] = {}
    for hit in hits:
        if hit.payload.kind == "mark":
            spans.setdefault(hit.payload.code, []).append((hit.start, hit.end))
    hidden = spans.get("pseudo", [])
    for name in ("negators", "stoppers", "unsure"):
        kept = [s for s in spans.get(name, []) if not any(a <= s[0] and s[1] <= b for a, b in hidden)]
        spans[name] = _outermost(sorted(set(kept))) if kept else kept
    asking = [(a, b) for a, b in hidden if b - a >= _ASKING]
    spans["conditional"] = [
        s
        for s in spans.get("conditional", [])
        if not _affirms(s[0], words) and not any(a <= s[0] < b for a, b in asking)
    ]
    for name in ("fine", "broken_down", "gone", "failing", "past", "others", "conditional"):
        heard = spans.get(name)
        if heard:
            spans[name] = _outermost(sorted(set(heard)))
    return Marks(spans)


def _affirms(at: int, words: Sequence[Word]) -> bool:
    """
    “sí hay agua”: yes, not if. Without the accent, when it opens a text that has no second clause to depend on it, or stands
    behind its subject and a "but" follows ("la lavadora si se llena pero", "lo que pasa es").
    """
    if words[at].form != "si":
        return False
    rest = words[at + 1 :]
    if words[at].accented:
        return True
    if any(w.form in _CONSEQUENT for w in rest[:6]):
        return False
    if at == 0:
        return len(rest) <= 5 and not any(w.brk for w in rest)
    before = words[at - 1].form
    if words[at].brk or (before in _BEFORE_IF and before not in ("y", "que")):
        return False
    contrasted = next((w for w in rest[:8] if w.brk == 2 or w.form in _CONTRASTED), None)
    if before in _BEFORE_IF and not any(word.form == "si" for word in words[max(0, at - 4) : at]):
        return False  # "si calienta y si da vueltas pero"
    if (
        before in _GIVEN
        and len(rest) > 1
        and rest[0].form != rest[0].es
        and rest[0].form.endswith(("a", "e", "an", "en"))
    ):
        return True
    return before in _SURELY or (contrasted is not None and contrasted.form in _CONTRASTED)


_SURELY = frozenset(["ahora", "eso"])
"""“ahora sí”, “eso sí el congelador congela”."""

_GIVEN = frozenset((
    "hielo", "hielos", "agua", "frio", "calor", "aire", "ruido", "luz", "lumbre", "flama", "espuma", "vapor", "fuego", "jabon",
))  # fmt: skip
"""What a machine gives: “hielo sí hace, ruido no”."""

_CONTRASTED = frozenset(["pero", "nomas", "lo"])
"""Words that turn from what works to what does not: “si hace hielo pero”, “lo que pasa es”, “nomas que”."""


_BEFORE_IF = frozenset(["y", "o", "pero", "que", "se", "saber", "como", "incluso", "ver", "aun"])


_CONSEQUENT = frozenset(["entonces", "llamo", "aviso", "que", "debo", "puedo", "pueden", "tengo", "quiero"])


def _outermost(spans: Spans) -> Spans:
    """The spans that lie in no other, in order."""
    if len(spans) < 2:
        return spans
    kept: Spans = []
    reached = -1
    for start, end in sorted(spans, key=lambda span: (span[0], -span[1])):
        if end > reached:
            kept.append((start, end))
            reached = end
    return kept
