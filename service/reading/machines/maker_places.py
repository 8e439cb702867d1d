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
    r"maker|works|house|room|shop|barn|yard|how|ways)$"
)
"""How words end that tell how a machine is, or where it stands: “sketchy”, “leftmost”, “milkhouse”."""

_STOPS = r"\s*(?:$|[.,;:!?)\n]|(?:thing|machines?|and|y|but|pero|that|which|with|so|from|bought|que|con)\b)"
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
_KIND_BEFORE = re.compile(rf"\b{_KIND}[,.;]\s*$")
"""“top load, Corrigan, bought used”."""
_DE_SIZE = re.compile(r"\s+de \d{1,3} (?:botellas|pulgadas|kilos|litros|pies|anos)\b")
_DE_KIND = re.compile(r"\s+de (?:gas|induccion|\d{1,3}|luz)\b")
_SPANISH = re.compile(
    r"(?:[aeiu]d[oa]|ot[ea]|isim[oa]|it[oa]|os[oa]|ador[a]?|az[oa]|on[a]?|al|able|ante|ente|[aei]r)s?$"
)
"""How Spanish words end that tell how a machine is: “prestada”, “grandota”."""
_DETERMINES = frozenset(("a", "an", "the", "my", "our", "mi", "una", "la", "el", "nuestra", "old", "this", "un"))


_MINE = frozenset(("mi", "my", "our", "nuestra", "nuestro"))
_OWNED = _MINE | {"al", "del", "el", "la", "un", "una", "su", "this", "ese", "esa", "este", "esta"}
_OF_A_KIND = re.compile(
    r"\s+de (?:(?:los |las )?(?:trastes|platos|loza|pared|puertas|ropa|mesa|gas|luz|induccion|vinos?|hielos?|cervezas?|"
    r"pecho|cofre|cochera|basura)|(?:\d{1,2}|dos|tres|cuatro|una|seis) "
    r"(?:puertas?|quemadores|hornillas|kilos|pies|botellas|lumbres))\b"
)
"""“mi Larkspur de trastes”, “al kestrelo de pared”, “un ostrand de dos puertas”."""
_PART_OF_MINE = re.compile(r"\b(?:del?|of|on|in|a|en|from|inside|behind|under) (?:mi|my|our|nuestr[oa]) $")
_OWN_VERB = re.compile(
    r"\s*(?:$|[.,;:!?)\n])|\s+(?:is|isn'?t|wo?n'?t|does|doesn'?t|has|hasn'?t|keeps|leaks|quit|died|stopped|just|will|makes?|no|ya|se|esta|"
    r"tira|hace|anda|con|sin|que|and|y|but|pero|started|went|needs|le|sigue|dejo)\b"
)
"""What may follow “my Ostrand”: what it does, and not another word of a name."""
_ANIMALS = re.compile(r"(?:huahua|weiler|nauzer|doodle|ranian|berman|hound|terrier|corgi|husky|yorkie|[ie]t[oa])$")
_ENDS = re.compile(r"\s*(?:$|[.,;:!?)\n])")
_ALL_ARE = re.compile(
    r"\b(?:both|all|all of (?:them|it)|they are|theyre|they're|(?:las|los|ambas|ambos) (?:dos|tres)(?: son)?|"
    r"tod[oa]s?(?: (?:es|son))?|(?<!my )(?<!our )(?<!his )(?<!her )(?<!the )(?<!a )son|"
    r"ambas|ambos) (?:are )?$"
)
_ALL_STOPS = re.compile(r"\s+(?:both|all|about|like|maybe|como|de|tienen|\d)\b")
_SAYS = re.compile(
    r"(?:^|[.,;:(\n]\s*|\b(?:it|front|door|tag|label|sticker|badge|puerta|placa|frente|y|and) )(?:says?|reads?|dice|trae) $"
)
_ON_IT = re.compile(r"\s*(?:$|[.,;:!?)\n])|\s+(?:on|en|across|up|right|big|there|ahi|arriba|adelante|afuera)\b")
_ONE_OF = re.compile(r"\b(?:some kinda|some kind of|one of (?:those|them|these)|(?:un[oa]|es) de es[oa]s) $")
_IT_IS = re.compile(r"[.;!?\n]\s*(?:es|son|its|it's|it is|they're|theyre) $")
"""“… le falta un cacho. es Tolvane”."""
_ITS_A = re.compile(r"\b(?:it is|it's|its|is|es|mine is|have|got|tengo) (?:an?|una?|marca) $")
_AGE_NEXT = re.compile(r",?\s+(?:about |like |maybe |como )?(?:de |con )?\d{1,2} ?(?:yrs?|years?|anos?|y/o|y\.o)\b")
_ASIDE = re.compile(r"\s*[,)]")
_LONG = 6
"""Letters of a word in small letters that is hardly slang: “its a solvane, fridge, 9 yrs”."""
_ONES = frozenset(("a", "an", "un", "una", "marca"))
_THE_MACHINE = re.compile(r"\s+(?:el|la|mi|las|los) $")
"""“es ostrand el refri”."""


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
    if _told_so(normal, at, machines) or (normal.text[word.start].isupper() and _in_capitals(normal, at, machines)):
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
    if starts and (_DE_SIZE.match(folded, end) or (word.was and _AGE_NEXT.match(folded, end))):
        return True
    told = normal.text[word.start].isupper() or not _SPANISH.search(word.was or word.form)
    return told and _behind_a_machine(before, machines) and bool(_DE_KIND.match(folded, end))


def _told_so(normal: Normal, at: int, machines: Collection[tuple[int, int]]) -> bool:
    """Whether the word at *at* is owned, served, or what a machine is said to be: “es ostrand el refri”."""
    word, folded = normal.words[at], normal.folded
    before, end = folded[: word.start], word.end
    last = normal.words[at - 1].form if at else ""  # looked at first: that is quicker than what ends a long text
    if _owned(normal, at, before):
        return True
    if last in _ONES and _AGE_NEXT.match(folded, end) and (_ITS_A.search(before) or normal.text[word.start].isupper()):
        return True
    if last in _ONES and _ITS_A.search(before) and _ASIDE.match(folded, end):
        return len(word.form) >= _LONG and not _SPANISH.search(word.was or word.form)
    if last in ("es", "son") and any(
        end < start and _THE_MACHINE.fullmatch(folded, end, start) for start, _ in machines
    ):
        return True
    return bool(_SERVED.search(before) and _ASKED_SO.match(folded, end))


def _in_capitals(normal: Normal, at: int, machines: Collection[tuple[int, int]]) -> bool:
    """Whether the word at *at* stands where one in capitals is a maker: “all Ostrand”, “says Kestrin on it”."""
    word, folded = normal.words[at], normal.folded
    before, end = folded[: word.start], word.end
    of_all = _ALL_ARE.search(before)
    if (of_all or _BESIDES.search(before) or _ONE_OF.search(before)) and re.match(_STOPS, folded[end:]):
        return True
    if of_all and _ALL_STOPS.match(folded, end):
        return True
    if _IT_IS.search(before) and _ENDS.match(folded, end):
        return any(machine_end < word.start for _, machine_end in machines)
    alone = (at == 0 or word.brk > 0) and _ENDS.match(folded, end)
    if (alone and _KIND_BEFORE.search(before)) or (_SAYS.search(before) and _ON_IT.match(folded, end)):
        return True
    return bool(_MADE_BY.search(before)) and _behind_a_machine(before[:-3], machines)


def in_a_name(shown: str, besides: str) -> bool:
    """Whether *shown* is one of several words of a name or an address: “Saturnino Apodaca”."""
    return shown in besides and re.search(rf"\b{shown} [A-ZÁÉÍÓÚÑ]|[^\W\d_] {shown}\b", besides) is not None


def whole_maker(text: str, brand: str) -> str:
    """*brand* with the name that "&" joins to it: “Halvorsen & Pike”."""
    more = re.compile(r" & [A-ZÁÉÍÓÚÑ][^\W\d_]+").match(text, text.find(brand) + len(brand)) if "&" in text else None
    return brand + more.group() if more else brand


def is_owned_kind(normal: Normal, at: int) -> bool:
    """Whether the word at *at* is what somebody has, of a kind that only machines are: “mi kestrin de trastes”."""
    word = normal.words[at]
    if not at or word.brk or normal.words[at - 1].form not in _OWNED or not _OF_A_KIND.match(normal.folded, word.end):
        return False
    typed = word.was or word.form
    return normal.text[word.start].isupper() or not (_SPANISH.search(typed) or typed.endswith(("a", "o", "as", "os")))


def _owned(normal: Normal, at: int, before: str) -> bool:
    """Whether the word at *at* is what somebody has, of a kind of machine, or in capitals and doing as machines do."""
    word = normal.words[at]
    if is_owned_kind(normal, at):
        return True
    if not at or word.brk or not normal.text[word.start].isupper():
        return False
    article = normal.words[at - 1].form in ("the", "la", "el") and (at == 1 or normal.words[at - 1].brk > 0)
    if normal.words[at - 1].form not in _MINE and not article:
        return False
    if _ANIMALS.search(word.was or word.form):
        return False
    return bool(_PART_OF_MINE.search(before) or _OWN_VERB.match(normal.folded, word.end))


def _behind_a_machine(before: str, machines: Collection[tuple[int, int]]) -> bool:
    """Whether what ends *before* is a machine's name."""
    said = len(before.rstrip(" (,"))
    return any(end == said for _, end in machines)
