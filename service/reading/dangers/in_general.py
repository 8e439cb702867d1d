"""
Questions about machines in general, that tell of none at hand: “can a fridge catch fire?”, “do dishwashers ever shock people”,
“es cierto que los microondas echan chispas”.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from service.reading.dangers.other_sources import names_a_machine
from service.reading.dangers.source_words import listed
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word
from service.reading.words.sentences import sentence_of

_BEFALLING = frozenset(["sparks", "shock", "injury", "flooding", "fire"])
"""What befalls: asked of any machine it is no danger. Smoke and smells asked of may be those in the asker's nose ..."""
_SENSED = frozenset(["smoke", "fire", "burning_smell", "gas_smell", "carbon_monoxide"])
"""... and are none only where it is told besides why it is asked, or that ours is fine."""
_REACH = 9


def asked_in_general(hit: Hit, words: Sequence[Word]) -> bool:
    """Whether *hit* is asked of no machine at hand; told of ours beside it, it stays."""
    code = hit.payload.code
    if _of_its_nature(hit, words) or _how_would_one_know(hit, words) or _never_tried(hit, words):
        return True
    if code in _BEFALLING and _asked_of_any(hit, words):
        return True
    return code in _SENSED and _only_wondered(hit, words)


_SEEMS = listed("smell smells sound look taste feel")
_IS_BAD = listed("dangerous toxic poisonous flammable deadly legal peligroso peligrosa toxico toxica venenoso")


def _of_its_nature(hit: Hit, words: Sequence[Word]) -> bool:
    """“what does carbon monoxide smell like”, “is freon dangerous”."""
    if not hit.start or hit.end >= len(words) or words[hit.end].brk:
        return False
    before, behind = [word.form for word in words[max(0, hit.start - 4) : hit.start]], words[hit.end].form
    if behind in _SEEMS:
        return ("what", "does") in pairwise(before)
    first, _ = sentence_of(hit, words, 4)
    return words[first].form in ("is", "es") and hit.start - first < 3 and behind in _IS_BAD


def _how_would_one_know(hit: Hit, words: Sequence[Word]) -> bool:
    """“how would I know if my stove had a gas leak”; asked with “do”, it may be because of something."""
    for at in range(max(1, hit.start - _REACH), hit.start):
        if words[at].form in ("know", "tell", "sabria", "sabriamos") and words[at + 1].form in ("if", "when", "si"):
            return words[at].form.startswith("sabr") or any(w.form == "would" for w in words[max(0, at - 3) : at])
    return False


_UNTRIED = (
    ("havent", "tried"), ("havent", "run"), ("havent", "used"), ("never", "tried"), ("never", "used"), ("antes", "de"),
    ("lo", "he"), ("la", "he"), ("before", "i"),
)  # fmt: skip
_TO_TRY = listed("tried run used usar usarlo usarla usado prenderlo prenderla probado try use")
_ASKING = listed("if does do is will would can si puede va normal")
_BECAUSE_OF_IT = listed("since because porque desde again so por still")


def _never_tried(hit: Hit, words: Sequence[Word]) -> bool:
    """“does self clean smoke? havent run it yet”, “saca chispa? antes de usarlo”: asked of what was never done."""
    if hit.payload.code not in ("smoke", "sparks", "burning_smell"):
        return False
    first, _ = sentence_of(hit, words, 2 * _REACH)
    if not any(word.form in _ASKING for word in words[first : hit.start + 1]):
        return False
    for at in range(hit.end, min(len(words) - 1, hit.end + _REACH)):
        if (words[at].form, words[at + 1].form) in _UNTRIED and any(w.form in _TO_TRY for w in words[at : at + 3]):
            return not any(word.form in _BECAUSE_OF_IT for word in words[hit.end : at + 6])
    return False


_CAN = listed("can could do does will would puede pueden podria podrian")
_ANYBODY = listed("you people they anybody anyone somebody someone one uno alguien")
_OF_ANY = listed("a an un una any some cualquier")
_SOME = _OF_ANY | listed("these those the los las")
_BEFORE = listed("""
    so hey hi hello just also question curious and oye oiga is es quick wondering que often likely if whether oigan hola
    how when ask asking btw pregunta
""")
_CHANCE = listed("chance chances odds risk chanza riesgo probabilidad posibilidad")
_TRUE = listed("true cierto verdad possible posible common comun probable")
_OURS = listed("my our mine ours this it me us mi mis este esta me nos mio mia did")
_ASKED_OF_US = listed("""
    fix repair come check look send help see service replace tell arreglar arreglan reparan reparar venir revisar checar
    ver mandar ayudar
""")
"""“can you fix a stove that sparks”: something to be done about one at hand."""
_NAMED_WITHIN = 4


def _asked_of_any(hit: Hit, words: Sequence[Word]) -> bool:
    first, end = sentence_of(hit, words, 2 * _REACH)
    begins = next((at for at in range(first, hit.start) if _opens(at, first, hit, words)), None)
    if begins is None:
        return False
    last = next(
        (at for at in range(hit.end, min(end, hit.end + 3)) if words[at].form in _SUPPOSED), min(end, hit.end + 3)
    )
    if any(word.form in _OURS or word.form in _ASKED_OF_US for word in words[begins + 1 : last]):
        return False
    return not so_does_ours(words[hit.end :])


def _opens(at: int, first: int, hit: Hit, words: Sequence[Word]) -> bool:
    """Whether a question of any machine begins with word *at*: “can a microwave”, “is it true”, “what are the odds of”."""
    form, before = words[at].form, words[at - 1].form if at > first else ""
    if form in _TRUE:
        return at - first <= _NAMED_WITHIN and before in ("it", "is", "es", "its", "sera", "tan")
    if form in _CHANCE:
        return _of_any(at + 1, hit, words)
    if form not in _CAN or not (at == first or words[at].brk or before in _BEFORE):
        return False
    return words[at + 1].form in _ANYBODY or _of_any(at + 1, hit, words)


def _of_any(start: int, hit: Hit, words: Sequence[Word]) -> bool:
    """Whether it is asked of “a dryer”, “those gas stoves”, “una lavadora”."""
    for at in range(start, min(start + _NAMED_WITHIN + 1, hit.end)):
        if words[at].form == "things" or names_a_machine(words[at : at + 1]):
            before = {word.form for word in words[start:at]}
            return bool(before & _OF_ANY) or (words[at].form.endswith("s") and at - start < _NAMED_WITHIN)
    if words[start].form in listed("dar echar causar sacar"):
        return any(word.form in _OF_ANY for word in words[hit.end : hit.end + 2])
    return words[start].form in _SOME - listed("the los las")


_SUPPOSED = listed("if when si cuando")
_DOES = listed("did does keeps started went tambien si too")
_MINE = listed("mine ours mia mio nuestra nuestro")
_NEVER = listed("never not hasnt doesnt didnt isnt nunca no")


def so_does_ours(after: Sequence[Word]) -> bool:
    """“do microwaves spark? mine did last night”."""
    for at, word in enumerate(after):
        near = {w.form for w in after[at + 1 : at + 3]}
        if word.form in _MINE and near & _DOES and not near & _NEVER and not (at and after[at - 1].form == "all"):
            return True
    return any(pair in _HERE_TOO for pair in pairwise(word.form for word in after))


_NOW = listed("now today tonight ahora ahorita hoy anoche")
_YES = listed("yes yeah yep yup si")
_TURNED = listed("but pero before antes yesterday ayer anymore")


def but_now(hit: Hit, words: Sequence[Word]) -> bool:
    """“no sparks before but tonight yes”, “antes no daba toques, ahora sí”: what was not so then is so now."""
    for at in range(hit.end, len(words)):
        kind = _YES if words[at].form in _NOW else _NOW if words[at].form in _YES else None
        last = next((end for end in range(at + 1, min(at + 4, len(words))) if kind and words[end].form in kind), None)
        if last is None:
            continue
        ends = last + 1 == len(words) or words[last + 1].brk or words[last + 1].form in _A_LITTLE
        if ends and any(word.form in _TURNED for word in words[max(0, hit.start - 3) : at + 1]):
            return True
    return False


_A_LITTLE = listed("a some little un tantito poquito algo")


_HERE_TOO = frozenset((
    ("so", "does"), ("so", "did"), ("does", "too"), ("did", "too"), ("does", "again"), ("did", "again"),
    ("again", "today"), ("again", "tonight"), ("again", "now"), ("esta", "tambien"), ("este", "tambien"), ("aqui", "tambien"),
))  # fmt: skip
"""“the car smells like gas and so does the stove”, “years ago, and it does again today”: so it is here and now."""


_WONDERING = listed("""
    wondering curious curiosity curiosidad hypothetically hypothetical general anxiety anxious buy buying shopping
    comprar switching upgrading
""")

_SOMEBODY = listed("somebody someone anybody anyone person people alguien gente persona")

_IF = listed("""
    if when can could do does would whether que si cuando puede pueden podria cierto true normal usually were are
""")

_OURS_FINE = (
    ("mine", "is"), ("ours", "is"), ("mine", "works"), ("mine", "just"), ("ours", "just"), ("mine", "isnt"), ("mine", "only"),
    ("ours", "isnt"), ("ours", "only"), ("la", "mia"), ("el", "mio"), ("la", "nuestra"), ("el", "nuestro"), ("mine", "runs"),
    ("ours", "works"), ("just", "asking"), ("asking", "for"), ("just", "wonder"), ("pregunto", "nomas"),
    ("nomas", "pregunto"), ("solo", "pregunto"), ("nomas", "preguntaba"), ("nomas", "quiero"), ("not", "an"),
    ("un", "video"), ("a", "video"), ("an", "article"), ("peace", "of"), ("un", "dia"), ("solo", "preguntaba"),
)  # fmt: skip
"""Pairs of words that set what is ours apart from it, or say why it is asked."""

_ANY = listed("a an any some these those un una unos unas los las estas estos")


def _only_wondered(hit: Hit, words: Sequence[Word]) -> bool:
    """“what if a dryer catches fire, asking for a friend”, “who do people call when they smell gas, just curious”."""
    if so_does_ours(words[hit.end :]):
        return False
    first, _ = sentence_of(hit, words, _REACH)
    near = words[first : hit.start + 1]
    forms = {word.form for word in near}
    if not (forms & _IF or words[hit.start].asks or forms & _SAYING_SO):
        return False
    if any(
        word.form in listed("rn ahorita") or (word.form == "now" and words[at - 1].form == "right")
        for at, word in enumerate(words)
    ):
        return False
    somebody = bool(forms & _SOMEBODY) and not forms & listed("i we my our yo nos mi")
    if not (somebody or _any_machine(first, hit, words) or hit.payload.code == "carbon_monoxide"):
        return _set_apart(words) and bool(forms & {"un", "dia"} == {"un", "dia"})
    return _set_apart(words) or (somebody and any(word.form in _IF for word in near))


_SAYING_SO = listed("""
    heard read recalled recall escuche oi lei dicen dijeron revisar check test
""")


def _any_machine(first: int, hit: Hit, words: Sequence[Word]) -> bool:
    """“a dryer”, “these ovens”: no machine in particular."""
    for at in range(max(first, hit.start - 6), hit.end):
        if names_a_machine(words[at : at + 1]):
            before = [word.form for word in words[max(first, at - 4) : at]]
            if any(form in _THE for form in before):
                return False
            return any(form in _ANY for form in before) or words[at].form.endswith("s")
    return False


_THE = listed("my our the your this el la mi mis nuestro nuestra este esta")


def _set_apart(words: Sequence[Word]) -> bool:
    if any(word.form in _WONDERING for word in words):
        return True
    return any((a.form, b.form) in _OURS_FINE for a, b in pairwise(words))
