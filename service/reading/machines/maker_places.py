"""Where a word that nobody knows can only be a machine's maker, in small letters or though it looks like a slip."""

from __future__ import annotations

import re
from collections.abc import Collection

from rapidfuzz.distance import OSA

from service.reading.words.normalising import Normal, Word

_FAR_FROM = 2
"""Letters by which a name differs from the word it might be a slip of; a real slip mostly differs by one."""
_ADJECTIVE = re.compile(
    r"(?:[bcdfgkmnprtz]y|sy|lly|hy|most|like|est|ward|wards|proof|side|wise|style|stove|oven|fridge|washer|dryer|"
    r"maker|works)$"
)
"""How words end that tell how a machine is: “sketchy”, “leftmost”."""

_STOPS = r"\s*(?:$|[.,;:!?)\n]|(?:and|y|but|pero|that|which|with|so|from|bought|que|con)\b)"
_IS_ONE = re.compile(
    r"\b(?:one|mine|ours|unit|machine|brand|(?:el|la) (?:mi[ao]|otr[ao]|de \w+)) (?:is|es) (?:an?|una?|de marca) $"
)
_IT_IS_THE = re.compile(r"\b(?:it is|it's|its|mine is|is|es) (?:the|an?|la|el) (?:old |new |older |newer )?$")
_ONE = re.compile(r"\s+(?:one|brand)\b(?! of\b)")
_SERVED = re.compile(
    r"\b(?:work on|service|repair|handle|trabajan(?: con)?|arreglan|componen|reparan) (?:an? |any |the |la |las |los |"
    r"la marca |marca )?$"
)
"""“do you guys even work on Pellmark?”"""
_ASKED_SO = re.compile(r"\s*(?:$|[?,.;!]|brand\b|stuff\b|units?\b|ones\b)")
_MADE_BY = re.compile(r"\b\w+ by $")
_BESIDES = re.compile(r",\s*(?:an?|una?) $")
"""“dishwasher came with the house, a Pellmark.”"""
_SPELLED = re.compile(
    r"(?:\s+is|,)?\s+(?:i (?:think|believe|guess|wanna say|want to say)|creo|me parece)"
    r"(?: (?:that'?s|it'?s|its|is|how|que|asi|se)\b(?: (?:how|it'?s|its|you|se|spelled|spell|spelt|called|called that|"
    r"escribe|llama|it))*)?"
    r"\s*(?:$|[.,;!?)\n])"
)
_KIND = (
    r"(?:gas|electric|elec|propane|induction|electrica|electrico|de gas|de induccion|de \d{1,3}|double|single|top load\w*|"
    r"front load\w*|side by side|french door|upright|chest|built ?in|slide ?in|over the range|wall|downdraft|counter ?top|"
    r"portable|\d{1,2} ?(?:in|inch|inches|\"|pulgadas)|\d burners?|carga (?:frontal|superior))"
)
_KINDS_NEXT = re.compile(rf"(?:\s+{_KIND}){{0,4}}\s+$")
_KIND_THEN_ENDS = re.compile(
    rf"(?:\s+{_KIND}){{1,4}}(?:\s*(?:$|[.,;!?)\n])|,?\s+(?:about |like |maybe |como )?\d{{1,2}}(?:ish)?\s?(?:years?|"
    rf"yrs?|anos?)\b)"
)
_DE_SIZE = re.compile(r"\s+de \d{1,3} (?:botellas|pulgadas|kilos|litros|pies|anos)\b")
_DE_KIND = re.compile(r"\s+de (?:gas|induccion|\d{1,3}|luz)\b")
_SPANISH = re.compile(
    r"(?:[aeiu]d[oa]|ot[ea]|isim[oa]|it[oa]|os[oa]|ador[a]?|az[oa]|on[a]?|al|able|ante|ente|[aei]r)s?$"
)
"""How Spanish words end that tell how a machine is: “prestada”, “grandota”."""
_DETERMINES = frozenset(("a", "an", "the", "my", "our", "mi", "una", "la", "el", "nuestra", "old", "this", "un"))


def is_far_slip(word: Word) -> bool:
    """Whether *word* stands as typed, or was mended into a word that is not near it."""
    return not word.was or OSA.distance(word.was, word.form) >= _FAR_FROM


def may_name(typed: str) -> bool:
    """Whether *typed*, which nobody knows, does not end as words do that tell how a thing is."""
    return _ADJECTIVE.search(typed) is None


def stands_for_maker(normal: Normal, at: int, machines: Collection[tuple[int, int]]) -> bool:
    """
    Whether the unknown word at *at* stands where only a maker does. *machines*: where they are named, in letters.

    “the other one is a Pellmark and leaks”, “it is the kestrin one”, “kestrin i think it's spelled”, “a kestrin gas 30in
    range”, “dryer, kestrin electric, 9 yrs”, “(Kestrin)”, “secadora kestrin de gas”.
    """
    word, folded = normal.words[at], normal.folded
    before, end = folded[: word.start], word.end
    starts = at == 0 or word.brk > 0
    if _SERVED.search(before) and _ASKED_SO.match(folded, end):
        return True
    if normal.text[word.start].isupper():
        if _BESIDES.search(before) and re.match(_STOPS, folded[end:]):
            return True
        if _MADE_BY.search(before) and _behind_a_machine(before[:-3], machines):
            return True
    if _IS_ONE.search(before) and re.match(_STOPS, folded[end:]):
        return True
    if _IT_IS_THE.search(before) and _ONE.match(folded, end):
        return True
    if before.endswith("(") and folded[end : end + 1] == ")":
        return normal.text[word.start].isupper() and _behind_a_machine(before, machines)
    if starts and _SPELLED.match(folded, end):
        return True
    opens = starts or normal.words[at - 1].form in _DETERMINES
    if opens and any(end < start and _KINDS_NEXT.fullmatch(folded, end, start) for start, _ in machines):
        return True
    if starts and _KIND_THEN_ENDS.match(folded, end):
        return True
    if starts and _DE_SIZE.match(folded, end):
        return True
    told = normal.text[word.start].isupper() or not _SPANISH.search(word.was or word.form)
    return told and _behind_a_machine(before, machines) and bool(_DE_KIND.match(folded, end))


def _behind_a_machine(before: str, machines: Collection[tuple[int, int]]) -> bool:
    """Whether what ends *before* is a machine's name."""
    said = len(before.rstrip(" (,"))
    return any(end == said for _, end in machines)
