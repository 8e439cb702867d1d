"""The words of a question's choices against those of a text: which choice is meant."""

from __future__ import annotations

import re
from collections.abc import Sequence

from service.reading.model import Choice
from service.reading.words.normalising import Word, fold
from service.reading.words.stemming import stem_en, stem_es

_SMALL = frozenset((
    "the", "a", "an", "of", "in", "is", "it", "to", "my", "on", "at", "and", "or", "el", "la", "los", "las", "de",
    "un", "una", "en", "es", "se", "y", "o", "between", "be", "do", "does", "did", "was", "were", "are", "what", "why", "how",
    "who", "which", "you", "your", "i", "we", "that", "this", "for", "from", "with", "que", "cual", "quien", "desde", "por",
    "para", "con", "by", "del", "al", "lo", "le", "su", "mi", "no", "not", "yes", "si", "just", "only", "please", "solo",
    "nomas",
    "its", "they", "them", "there", "theres", "as", "when", "while", "if", "then", "so", "but", "has", "have", "had", "us",
    "cuando", "mientras", "ya", "me", "nos", "sus", "pero", "como", "ha", "han",
))  # fmt: skip


_PAIRS = (
    "all todos todas todo, some algunos algunas, none ninguno ninguna, nothing nada, always siempre, never nunca, both ambos, "
    "sometimes veces, hot caliente, cold frio fria, warm tibio tibia, top arriba, bottom abajo, front frente enfrente, "
    "back atras, left izquierda, right derecha, inside adentro dentro, outside afuera fuera, door puerta, hose manguera, "
    "floor piso, full lleno llena, empty vacio vacia, dry seco seca, wet mojado mojada, clean limpio limpia, clear limpio, "
    "dirty sucio sucia, loud fuerte, slow lento lenta, fast rapido rapida, new nuevo nueva, old viejo vieja, water agua, "
    "wash lavado, rinse enjuague, spin centrifugado, fill llenado, drain desague, light luz, noise ruido, smell olor, "
    "humming zumbido, clicking clics, more mas, less menos, once vez, day dia, week semana, month mes, year ano, today hoy, "
    "gas gas, electric electrico electrica, plug enchufe, filter filtro, ice hielo, fridge refri, freezer congelador"
)


def _in_the_other(pairs: str) -> dict[str, frozenset[str]]:
    """Each word to the stems of its fellows in the other language."""
    found: dict[str, set[str]] = {}
    for line in pairs.split(", "):
        english, *spanish = line.split()
        for word in spanish:
            found.setdefault(word, set()).add(stem_en(english))
            found.setdefault(english, set()).add(stem_es(word))
    return {word: frozenset(stems) for word, stems in found.items()}


_IN_THE_OTHER = _in_the_other(_PAIRS)
"""Words of short choices in both languages: a choice sent in one may be taken in the other."""


DENYING = frozenset((
    "no", "none", "not", "without", "never", "sin", "ningun", "ninguno", "ninguna", "nunca", "nothing", "nada",
))  # fmt: skip


def by_words(words: Sequence[Word], options: Sequence[Choice], *, timed: bool) -> int | None:
    """
    The choice that shares most telling words with the text, if one stands out; *timed*: numbers are hours, not words.

    Where several share its stems, the very forms tell: “en las paredes” of “paredes o parrillas” and “pared de atrás”.
    """
    spoken = {w.en for w in words} | {w.es for w in words}
    spoken |= {other for w in words for other in _IN_THE_OTHER.get(w.form, ())}
    all_words = [
        {
            k
            for part in re.findall(r"\w+", o.say.lower())
            if _bare(part) not in _SMALL  # "se" is no "sé"
            for k in (stem_en(_bare(part)), stem_es(_bare(part)))
        }
        for o in options
    ]
    scores = []
    for own in all_words:
        telling = {
            k
            for k in own
            if k not in _SMALL and not (k.isdigit() and timed) and sum(k in other for other in all_words) == 1
        }
        scores.append(len(telling & spoken))
    if not (DENYING & {w.form for w in words} or any(w.en == "not" for w in words)):
        scores = [0 if _first_word(o) in DENYING else s for o, s in zip(options, scores, strict=True)]
    best = max(scores, default=0)
    if best > 0:
        return scores.index(best) if scores.count(best) == 1 else None
    return None if timed else _by_forms({w.form for w in words}, options)


def _by_forms(spoken: set[str], options: Sequence[Choice]) -> int | None:
    """The one choice of which a word stands in the text in its very form, though others have the word in another one."""
    forms = [set(re.findall(r"[a-z0-9]+", fold(option.say))) for option in options]
    stems = [{stem for form in own for stem in (stem_en(form), stem_es(form))} for own in forms]
    named = []
    for place, own in enumerate(forms):
        alone = {f for f in own & spoken if f not in _SMALL and sum(f in other for other in forms) == 1}
        shared = any(sum({stem_en(f), stem_es(f)} & other != set() for other in stems) > 1 for f in alone)
        if shared and _first_word(options[place]) not in DENYING:
            named.append(place)
    return named[0] if len(named) == 1 else None


_WHOLE_MOST = 5
"""A text of more words says more than the words of a choice."""


def named_whole(words: Sequence[Word], options: Sequence[Choice]) -> int | None:
    """
    The one choice of which the text is made, though it denies: “nothing” where a choice is “Nothing”, “no se oye”.

    A text without a "no" is left to its numbers and words.
    """
    forms = [word.form for word in words]
    if len(forms) > _WHOLE_MOST or not DENYING & {*forms}:
        return None
    found = []
    for place, option in enumerate(options):
        own = set(re.findall(r"[a-z0-9]+", fold(option.say)))
        stems = {stem for word in own for stem in (stem_en(word), stem_es(word))}
        told = {form for form in forms if form in own or _IN_THE_OTHER.get(form, frozenset()) & stems}
        telling = [f for f in told if f not in _SMALL]
        if telling and DENYING & told and all(f in told or f in _SMALL for f in forms):
            found.append(place)
    return found[0] if len(found) == 1 else None


ABOUT = _SMALL | frozenset((
    "when", "while", "during", "as", "whenever", "cycle", "part", "its", "mostly", "mainly", "usually", "mas", "cuando",
    "mientras", "durante", "ciclo", "parte", "casi", "sobre", "todo", "esta",
))  # fmt: skip
"""Words around the one that names a choice: “only during the spin cycle”."""


_PLACES = frozenset((
    "front", "back", "rear", "side", "top", "bottom", "inside", "outside", "behind", "under", "underneath", "left", "right",
    "frente", "enfrente", "atras", "lado", "arriba", "abajo", "adentro", "dentro", "afuera", "izquierda", "derecha",
))  # fmt: skip
"""Said alone these may be of anything: where it leaks, where it sounds, where it is."""


def made_of_one(text: str, options: Sequence[Choice]) -> int | None:
    """
    The one choice of which all telling words of a short *text* are: “only when it spins” of “As it spins”.

    For what was not asked just now, so that it takes more than a word in common.
    """
    forms = re.findall(r"[a-z0-9]+", fold(text))
    telling = [form for form in forms if form not in ABOUT]
    if (
        _PLACES.issuperset(telling)
        or len(forms) > _WHOLE_MOST
        or {*forms} & DENYING
        or "?" in text
        or any(f.isdigit() for f in telling)
    ):
        return None
    found = []
    for place, option in enumerate(options):
        own = {stem for word in re.findall(r"[a-z0-9]+", fold(option.say)) for stem in (stem_en(word), stem_es(word))}
        meant = ({stem_en(form), stem_es(form)} | _IN_THE_OTHER.get(form, frozenset()) for form in telling)
        if _first_word(option) not in DENYING and all(stems & own for stems in meant):
            found.append(place)
    return found[0] if len(found) == 1 else None


def _first_word(option: Choice) -> str:
    return fold(option.say).split(" ", 1)[0].strip(",.")


def _bare(word: str) -> str:
    return fold(word)


def is_all_at_first(words: Sequence[Word], at: int) -> bool:
    """“the last one, sounds like rocks in it”: a choice by its place, and a break behind it."""
    if at > 1 and not _LEADING_UP.issuperset(word.form for word in words[:at]):
        return False
    behind = at + 2 if at + 1 < len(words) and words[at + 1].form in ("one", "ones", "opcion") else at + 1
    return at <= _FIRST_PLACE and behind < len(words) and words[behind].brk > 0


_LEADING_UP = frozenset(
    ("its", "it", "is", "the", "es", "la", "el", "i", "think", "thats", "seria", "creo", "que", "id", "say")
)
_FIRST_PLACE = 4
