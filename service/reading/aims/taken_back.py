"""
Which machines a text takes out of the complaint: “no the dryer is fine its just the washer”, “forget the dryer”, “nomás la
lavadora”. What else is told of such a machine behind those words takes it back in.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, replace

from service.reading.faults.symptoms import VAGUE
from service.reading.machines.belonging import ARTICLES, PART_OF
from service.reading.machines.mentions import UNKNOWN
from service.reading.model import Found, Reading
from service.reading.opinion.halves import COOLS, of_the_fridge, with_sound_freezer
from service.reading.words.clauses import Clause
from service.reading.words.matching import Hit
from service.reading.words.normalising import CONTRASTS, Word

_FAR = 8
"""So many words before or behind a name may say that nothing is wrong with it."""
_NAMED_SOON = 3
"""Within so many words behind a “but” another machine is named, or something is told of this one."""

_FINE = r"(?:fine|ok|okay|good|great|alright|all right|perfect|perfectly|normal|bien|perfecta|perfecto|al cien|sana)"
_HOW = r"(?:actually|really|totally|completely|perfectly|just|still|all|also|muy|perfectamente|todavia|tambien|si|ya) "
_IS = r"(?:is|are|its|it is|seems|looks|esta|estan|anda|sigue|quedo|ta) "
_WORKS = r"(?:works|working|is working|its working|funciona|jala|sirve|trabaja|esta funcionando|esta jalando|funcionan|jalan)"
_TROUBLE = r"(?:nada|problema|problemas|falla|fallas|problem|problems|issue|issues)"
_NO_TROUBLE = (
    rf"(?:(?:has|have|is having) (?:no|zero) {_TROUBLE}|(?:doesnt|dont) have (?:a |any )?{_TROUBLE}"
    rf"|no (?:tiene|le pasa|da) (?:nada|{_TROUBLE})(?: malo)?"
    rf"|(?:isnt|is not|aint|wasnt) (?:the )?(?:problem|issue|broken|bad|acting up)|no es (?:el problema|esa|ella)"
    rf"|no (?:esta|anda) (?:mal|descompuest[ao]|fallando))"
)
_AFTERWARDS = (
    r"(?: (?:now|again|already|actually|after all|though|tho|too|thanks|lol|ya|ahora|ahorita|de hecho|gracias))*"
)
_SOUND = re.compile(
    rf"(?:{_HOW})*(?:(?:{_IS})?(?:{_HOW})*{_FINE}|{_WORKS}(?: (?:{_HOW})*{_FINE})?|{_NO_TROUBLE}){_AFTERWARDS}(?: |$)"
)
"""What is said behind a name of a machine that has nothing."""

_LEFT_OUT = re.compile(
    r"(?:^| )(?:(?:nothing|nothings|no problem|no problems|no issue|no issues) (?:is )?(?:wrong |bad )?with"
    r"|forget|forget about|never mind|nevermind|nvm|ignore|disregard|scratch|skip|leave out|take off|cancel|remove"
    r"|(?:dont|no need to) worry about|isnt|wasnt|not|no es|no era|olvid[aeo]|olvidese de|olvidate de|olvidese|ignore|ignora"
    r"|descarte|quite|(?:nada|(?:no hay|no tengo|sin|ningun) (?:problema|problemas)) (?:malo )?con|cancele|no se preocupe por)$"
)
"""What is said before the name of a machine that is left out."""

_ONLY = re.compile(
    r"(?:^| )(?:just|only|solo|solamente|nomas|no mas|nada mas|unicamente|nothing but)(?: es)?"
    r"(?: (?:do|fix|see|for|look at|come for|worry about|arreglen?|revisen?|vean|por|para))?$"
)
_NOT_ONLY = re.compile(r"(?:^| )(?:not|isnt|wasnt|no) (?:just|only|solo|solamente|nomas|unicamente)$")
_ONLY_BEHIND = re.compile(r"(?:only|nomas|solamente|nada mas|solo)(?: |$)")

_ENDS = CONTRASTS | frozenset((
    "it", "its", "just", "only", "so", "and", "y", "nomas", "solo", "solamente", "nada", "es", "i", "we", "the", "la", "el",
    "thats", "that", "is", "this", "sino", "though", "tho", "actually", "now", "please", "porfa", "por", "not", "no", "lo",
    "which", "wait", "sorry", "thanks", "gracias", "que", "for", "para", "forget", "nvm", "then", "entonces", "pues",
))  # fmt: skip
"""Words with which something new begins behind what is said of a machine."""
_OPENS_NO_MORE = frozenset(("and", "y", "is", "no"))
"""Behind “just the washer” these go on with it: “just the washer and the dryer”, “just the washer is not draining”."""
_COURTESY = frozenset(("please", "thanks", "porfa", "gracias", "por", "then", "though", "tho"))
"""May stand behind “the washer only”."""
_SLIPS = frozenset((
    "no", "nope", "wait", "actually", "sorry", "nvm", "nevermind", "never", "oh", "oops", "scratch", "forget", "espere",
    "espera", "perdon", "digo", "disculpe", "olvide", "olvida", "correction",
))  # fmt: skip
"""Between a fault and “the dryer is fine” these take it back."""
_SUPPOSED = frozenset((
    "if", "hope", "hopefully", "whether", "when", "unless", "thought", "until", "sure", "ojala", "cuando", "creia", "pense",
    "is", "are", "does", "was", "were", "will", "make", "que", "why", "another", "neighbors",
))  # fmt: skip
"""Before a name and “is fine” these make it no statement."""


@dataclass(frozen=True, slots=True)
class _Named:
    """A machine by its own name, at words ``start`` (its article) to ``end``."""

    appliance: str
    start: int
    end: int


def with_taken_back(draft: Reading, names: Sequence[Hit], words: Sequence[Word], clauses: Sequence[Clause]) -> Reading:
    """*draft* with the machines its words take out of the complaint, and those that alone are meant."""
    if not names or draft.hazards or draft.doubted_hazards:
        return draft
    named = _by_place(names, words)
    if {m.appliance for m in named} == _HALF:
        draft = of_the_fridge(draft, named[0].end, words)
    sound = [m for m in named if not _framed(m, clauses) and _taken(m, named, words)]
    alone = [m for m in named if not _framed(m, clauses) and _alone(m, named, words)]
    others_alone = {m.appliance for m in sound if any(a.appliance != m.appliance for a in alone)}
    sound = [m for m in sound if m.appliance in others_alone or not _told_as_a_whole(m, draft, words)]
    out = [m for m in sound if not _told_of(m, named, draft, words) and not _has_part(m, named)]
    if any(m.appliance in _HALF and COOLS in draft.appliances and m.appliance not in draft.appliances for m in sound):
        place = next(words[m.start].start for m in reversed(sound) if m.appliance in _HALF)
        draft = with_sound_freezer(draft, place)
    out, alone = ([m for m in some if not _is_a_part(m, draft)] for some in (out, alone))
    gone = dict.fromkeys(m.appliance for m in out if m.appliance not in {a.appliance for a in alone})
    only = dict.fromkeys(m.appliance for m in alone if m.appliance not in gone)
    if not gone and not only:
        return draft
    left = tuple(f for f in draft.symptoms if f.appliance not in gone)
    return replace(draft, symptoms=left, taken_back=tuple(gone), meant_alone=tuple(only))


def _by_place(names: Sequence[Hit], words: Sequence[Word]) -> list[_Named]:
    """The names in order, the longest where several share words, each with its article."""
    kept: list[_Named] = []
    for hit in sorted(names, key=lambda h: (h.start - h.end, h.start)):
        if any(hit.start < m.end and m.start < hit.end for m in kept):
            continue
        start = hit.start
        while start > 0 and words[start - 1].form in ARTICLES and not words[start].brk:
            start -= 1
        kept.append(_Named(hit.payload.code, start, hit.end))
    return sorted(kept, key=lambda m: m.start)


def _framed(machine: _Named, clauses: Sequence[Clause]) -> bool:
    """Whether it is asked or supposed, long ago, or somebody else's."""
    clause = next((c for c in clauses if c.start <= machine.end - 1 < c.end), None)
    return clause is not None and (clause.if_ or clause.asked or clause.past or clause.others)


def _behind(at: int, named: Iterable[_Named], words: Sequence[Word]) -> list[str]:
    """The words from *at* to the end of the statement or the next name."""
    names = {m.start for m in named}
    said: list[str] = []
    for place in range(at, min(len(words), at + _FAR)):
        if words[place].brk or place in names:
            break
        said.append(words[place].form)
    return said


def _before(machine: _Named, words: Sequence[Word]) -> list[str]:
    """The words of the same statement before its article."""
    at = machine.start
    while at > 0 and machine.start - at < _FAR and not words[at].brk:
        at -= 1
    return [word.form for word in words[at : machine.start]]


def _taken(machine: _Named, named: Sequence[_Named], words: Sequence[Word]) -> bool:
    before, behind = _before(machine, words), _behind(machine.end, named, words)
    if _LEFT_OUT.search(" ".join(before)) and _ends(machine.end, machine, named, words):
        return True
    if not _SUPPOSED.isdisjoint(before[-3:]):
        return False
    told = " ".join(behind)
    if told == "no" or told.startswith(("no nomas", "no solo", "no nada mas")):
        return any(_alone(other, named, words) for other in named if other.appliance != machine.appliance)
    found = _SOUND.match(told)
    return found is not None and _ends(machine.end + len(found.group().split()), machine, named, words)


def _ends(at: int, machine: _Named, named: Sequence[_Named], words: Sequence[Word]) -> bool:
    """Whether what is said of *machine* ends before word *at*; a “but” must go on to another machine."""
    if at >= len(words) or words[at].brk == _STOP:
        return True
    if words[at].form in CONTRASTS:
        return any(m.appliance != machine.appliance and 0 < m.end - at <= _NAMED_SOON + 1 for m in named)
    return bool(words[at].brk) or words[at].form in _ENDS or any(m.start == at for m in named)


_STOP = 2


def _alone(machine: _Named, named: Sequence[_Named], words: Sequence[Word]) -> bool:
    """“its just the washer”, “nomás la lavadora”, “the washer only”."""
    before = " ".join(_before(machine, words))
    told = " ".join(_behind(machine.end, named, words))
    at = machine.end
    if (only := _ONLY_BEHIND.match(told)) is not None:
        at += len(only.group().split())
        return at == len(words) or words[at].brk > 0 or words[at].form in _COURTESY
    if not _ONLY.search(before) or _NOT_ONLY.search(before):
        return False
    if at < len(words) and words[at].form in _OPENS_NO_MORE and words[at].brk < _STOP:
        return False
    return at == len(words) or words[at].brk > 0 or words[at].form in _ENDS


def _told_of(machine: _Named, named: Sequence[_Named], draft: Reading, words: Sequence[Word]) -> bool:
    """Whether a fault is told of *machine* that the words around it do not take back."""
    place = words[machine.end - 1].end
    others = [words[m.start].start for m in named if m.start >= machine.end and m.appliance != machine.appliance]
    another = min(others, default=len(draft.text))
    own = [f for f in draft.symptoms if f.appliance in (machine.appliance, UNKNOWN)]
    before = [f for f in own if f.end <= place]
    behind = [f for f in own if f.start >= place]
    return any(_stands(f, machine, words) for f in before) or any(
        f.start < another or not (f.code == VAGUE or _is_anothers(f, draft)) for f in behind
    )


def _told_as_a_whole(machine: _Named, draft: Reading, words: Sequence[Word]) -> bool:
    """Whether all of the words, those about *machine* among them, tell a fault of it: “works only if I hold the door”."""
    place = words[machine.end - 1].end
    own = (f for f in draft.symptoms if f.appliance in (machine.appliance, UNKNOWN) and f.code != VAGUE)
    return any(f.start < place < f.end for f in own)


def _stands(found: Found, machine: _Named, words: Sequence[Word]) -> bool:
    """“no heat but the dryer works fine”: told before, and nothing between says that it was wrong."""
    between = [w.form for w in words if found.end <= w.start and w.end <= words[machine.start].start]
    return found.code != VAGUE and _SLIPS.isdisjoint(between)


def _is_anothers(found: Found, draft: Reading) -> bool:
    """“dryer's good, washer leaks”: the same words tell it of the machine that is named behind."""
    return any(
        f.start == found.start and f.code == found.code and f.appliance != found.appliance for f in draft.symptoms
    )


_HALF = frozenset(("freezer",))


def _is_a_part(machine: _Named, draft: Reading) -> bool:
    """Whether it is named as a part of a larger machine: “the freezer is ok”, of a refrigerator."""
    return machine.appliance in PART_OF and machine.appliance not in draft.appliances


def _has_part(machine: _Named, named: Collection[_Named]) -> bool:
    """“the fridge is fine, it's the freezer”: a part of the machine is spoken of, which may be what is wrong with it."""
    return any(machine.appliance in PART_OF.get(m.appliance, ()) for m in named)
