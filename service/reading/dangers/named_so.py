"""
Danger words that are a name: “Mrs. Bernadine Sparks”, “our cats Ember and Smoke”, “chispa es la gata”, “a Cindrel Spark
200”, “Fire Rock Rd”.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from service.reading.dangers.source_words import MACHINES, listed
from service.reading.words.matching import Hit
from service.reading.words.normalising import Normal, Word

_BEARERS = listed("""
    dog dogs cat cats puppy puppies pup pups hound hounds kitten kittens kitty beagle terrier lab chihuahua pitbull husky
    horse horses pony parrot hamster rabbit goat goats pets pet perro perra perros perras perrito perrita perritos gato gata
    gatos gatas gatito gatita cachorro cachorra mascota mascotas caballo yegua brand soap detergent softener nickname band
    marca jabon suavizante detergente apodo banda
""")
"""Who or what bears such a name."""
_TITLES = _BEARERS | frozenset((
    "mr", "mrs", "ms", "miss", "dr", "don", "dona", "senor", "senora", "sr", "sra", "named", "called", "llama", "name",
    "nombre", "apellido", "familia", "calle", "avenida", "rancho", "street",
))  # fmt: skip
_BE = frozenset(["is", "s", "es", "and", "y", "are", "son", "called", "llaman", "se", "el", "la"])
_NAMED = frozenset(["named", "nicknamed", "llama", "llamamos", "apodo"])
_NO_ENDING = 3
"""So many letters more than the danger's word make another word: “Sparkwell”."""


def is_a_name(hit: Hit, normal: Normal) -> bool:
    """“Mrs. Bernadine Sparks”, “the dog is Sparky”: one word that names somebody, mostly with a capital."""
    words, text = normal.words, normal.text
    if hit.end - hit.start > 1:
        return False
    if _is_the_bearer(hit.end, words):
        return True
    word = words[hit.start]
    if not _has_capital(word, text) or text[word.start : word.end].isupper():
        return False  # who shouts names nobody
    was = word.was or word.form
    if was != word.form and was.startswith(word.form) and len(was) - len(word.form) >= _NO_ENDING:
        return True
    beside = [word.was or word.form for word in words[hit.end : hit.end + 2]]
    if beside[:1] and beside[0] in _OF_WHOM and beside[-1] in _BEARERS:
        return True  # “Sparky the beagle”, “Chispas mi gato”
    if _told_twice(hit.start, words, text) or _called_so(hit.end, words):
        return True
    if _was_named(hit.start, words) or _of_a_street_or_model(hit, normal):
        return True
    at = hit.start - 1
    while at >= 0 and at >= hit.start - 3:
        if words[at].form in _TITLES:
            return True
        if words[at].form not in _BE and not _has_capital(words[at], text):
            return False
        at -= 1
    return False


def _told_twice(at: int, words: Sequence[Word], text: str) -> bool:
    """“Sparks. Dolores Sparks like the city”: said again behind another name, both with a capital, as an answer is."""
    if at not in (0, 2) or len(words) < 3 or not words[1].brk:
        return False
    return (
        words[2].form == words[0].form
        and not words[2].brk
        and words[1].form not in MACHINES
        and _has_capital(words[1], text)
        and _has_capital(words[2], text)
    )


def _called_so(end: int, words: Sequence[Word]) -> bool:
    """“la lavadora Chispa usada, así se llama”, “a Spark, that's the brand”."""
    behind = [word.form for word in words[end : end + 6]]
    return any(a == "se" and b == "llama" for a, b in pairwise(behind)) or "brand" in behind or "marca" in behind


def _has_capital(word: Word, text: str) -> bool:
    return text[word.start : word.start + 1].isupper()


_IS = frozenset(["is", "are", "es", "son", "was"])
_OF_WHOM = frozenset(
    ["the", "my", "our", "a", "el", "la", "los", "las", "mi", "mis", "un", "una", "nuestra", "nuestro"]
)
_ALSO = frozenset(["and", "y", "e"])


def _is_the_bearer(end: int, words: Sequence[Word]) -> bool:
    """“chispa es el perro y humo es el gato”, “Flash and Smokey are the dogs”."""
    at = end
    if at + 1 < len(words) and words[at].form in _ALSO:
        at += 2  # “humo y lumbre son mis perros”
    told = words[at : at + 3]
    if any(word.brk for word in told) or len(told) <= 2:
        return False
    if told[0].form not in _IS or told[1].form not in _OF_WHOM:
        return False
    return told[2].form in _BEARERS


_STREETS = listed("""
    rd road st street ln lane ave avenue dr drive ct court blvd way circle cir trail hwy loop hollow canyon creek ranch
    court place terrace
""")


def _of_a_street_or_model(hit: Hit, normal: Normal) -> bool:
    """“Fire Rock Rd”, “a Cindrel Spark 200”: capitals before a street's word, or between a maker and a number or machine."""
    words, text = normal.words, normal.text
    for at in range(hit.end, min(hit.end + 3, len(words))):
        if words[at].brk or not (_has_capital(words[at], text) or words[at].form in _STREETS):
            break
        if words[at].form in _STREETS:
            return True
    if not hit.start or words[hit.start].brk or not _has_capital(words[hit.start - 1], text):
        return False
    maker = words[hit.start - 1]
    if maker.form in MACHINES or hit.end >= len(words) or words[hit.end].brk:
        return False
    behind = words[hit.end].form
    return behind[:1].isdigit() or behind in ("model", "series", "gas", "modelo") or behind in MACHINES


def _was_named(at: int, words: Sequence[Word]) -> bool:
    """“I named my robot Sparky”, “se llama Humo”: in one breath."""
    for before in range(at - 1, max(-1, at - 6), -1):
        if words[before + 1].brk or words[before].form in ("and", "y", "because", "porque", "but", "pero", "que"):
            return False
        if words[before].form in _NAMED:
            return True
    return False
