"""
What a text wants that no wording says: it asks something, says that a machine works again, or complains of it.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from service.reading.faults.cleared import CLEARED
from service.reading.faults.upkeep import is_sound
from service.reading.model import Asked, Reading
from service.reading.words.asking import TURNED, questions
from service.reading.words.hailing import hails
from service.reading.words.normalising import Word, fold

ABOUT_PAYING = "ask_warranty"
"""Who says that a warranty pays asks nothing."""
_WHO_PAYS = frozenset((
    "who", "quien", "quienes", "whether", "right", "verdad", "advise", "pregunte", "if", "or", "o", "si", "sure", "wondering",
))  # fmt: skip
_IS_IT = frozenset((
    ("isnt", "that"), ("isnt", "it"),
    ("is", "that"), ("is", "it"), ("is", "this"), ("is", "the"), ("am", "i"), ("do", "i"), ("does", "the"), ("will", "you"),
    ("do", "you"), ("can", "you"), ("are", "you"), ("does", "it"), ("does", "my"), ("does", "a"),
))  # fmt: skip
_ONLY_TOLD = frozenset(("report_problem", "ask_help"))
_NO_FAULT = frozenset(
    ("curious", "curiosidad", "hypothetically", "hypothetical", "wondering", "hipoteticamente", "suponiendo")
)
_AS_IT_SHOULD = frozenset((
    ("works", "great"), ("works", "fine"), ("working", "fine"), ("runs", "fine"), ("runs", "great"), ("works", "good"),
    ("dries", "fine"), ("dry", "good"), ("bakes", "great"), ("cools", "good"), ("cold", "good"), ("very", "good"),
    ("cools", "fine"), ("jala", "bien"), ("va", "bien"), ("enfria", "bien"), ("calienta", "bien"), ("seca", "bien"),
    ("trabaja", "bien"), ("funciona", "bien"), ("sirve", "bien"), ("prende", "bien"), ("lava", "bien"), ("just", "asking"),
    ("esta", "buena"), ("esta", "bueno"), ("muy", "bien"),
))  # fmt: skip
"""A machine that does what it is for; with a question beside, what is told of it is only asked about."""
_NOTHING_BUT = frozenset((
    ("thats", "just"), ("thats", "normal"), ("thats", "only"), ("es", "normal"), ("son", "normales"),
))  # fmt: skip
_SURELY_SO = ("right", "verdad", "verda")
"""At the end, behind the pairs above: what is told is hoped to be no fault, “thats just the hot clothes right”."""
_OF_THE_WORK = frozenset(("ask_price", "ask_warranty", "ask_status", "reschedule"))
_FAILED = frozenset((
    "shot", "bad", "broke", "broken", "gone", "burned", "burnt", "out", "died", "dead", "fried", "went", "trono", "quemo",
    "rompio", "quebro", "descompuso", "murio", "malo", "mala", "fundio", "not",
))  # fmt: skip
"""With these a part that is named is told to have failed."""
_FEWEST = 3
"""Of fewer words the build says nothing."""

_ALL_BUT_NOTHING = frozenset(("thanks",))
"""Said beside a question or praise it is but a courtesy."""

_YOU = frozenset(("you", "u", "yall", "ya", "yous", "ustedes", "uds", "usted", "ud"))
_TURNED_TO_YOU = TURNED | {"r", "have", "d"}
_ONE = frozenset(
    (
        "a",
        "an",
        "anyone",
        "anybody",
        "somebody",
        "someone",
        "both",
        "all",
        "most",
        "new",
        "old",
        "gas",
        "these",
        "those",
    )
)
_TO_ASK = frozenset((
    "wondering", "wonder", "wondered", "curious", "question", "pregunto", "preguntar", "preguntarle", "preguntarles",
    "pregunta", "preguntita", "duda", "curiosidad", "saber",
))  # fmt: skip
"""With these a question is announced: "just wondering if", "era para preguntar si", "tengo una duda"."""
_WHO = frozenset(("who", "quien", "quienes"))
_OBJECTS = frozenset(("le", "les", "lo", "la", "los", "las", "se"))
_DONE = frozenset(
    (
        "hago",
        "ago",
        "hace",
        "ase",
        "hacen",
        "hacemos",
        "quita",
        "quito",
        "saca",
        "saco",
        "limpia",
        "limpio",
        "usa",
        "uso",
    )
)
"""After "como le", "como se": how a thing is done."""
_A_MESSAGE = frozenset(("tell", "let", "pass", "remind", "warn", "sponsor", "donate"))
_TO_ME = frozenset(("me", "us", "if", "whether", "what", "how", "why", "when"))
"""After "can you": what is to be handed on or given asks for no help with a machine."""
_BEFORE_A_PLEA = frozenset(("as", "than", "like", "since"))
_THANKS = frozenset(("thanks", "thank", "thx", "ty", "gracias", "best", "appreciate", "kudos", "bless"))
_SINCE = frozenset(("since", "after", "desde", "dende"))
_CAME = frozenset(
    ("came", "visit", "fix", "fixed", "repair", "repaired", "left", "vino", "vinieron", "arreglo", "arreglaron")
)
_GOOD = frozenset((
    "great", "perfect", "perfectly", "perfecto", "perfecta", "normal", "beautifully", "good", "fine", "new", "bien",
    "excelente", "again", "nueva", "nuevo", "working", "works", "quedo", "smooth", "smoothly", "charm",
))  # fmt: skip
_BUT = frozenset((
    "but", "pero", "not", "isnt", "doesnt", "wont", "cant", "dont", "no", "still", "todavia", "sigue", "mess", "however",
    "aunque", "except", "menos", "asking", "didnt", "never", "nunca", "tampoco", "nothing", "nada", "though", "tho",
))  # fmt: skip
"""With these the praise is not all that is said."""
_WHO_AND_WHERE = frozenset(("access", "email", "phone", "name", "address"))
_SHORT = 16
"""So few words that tell who it is, or where to go, complain of nothing besides."""
_NOT_OF_IT = frozenset(
    ("forgot", "olvido", "olvide", "equivocado", "email", "bill", "invoice", "cancel", "cita", "visita")
)
"""Who adds a word about the file or the bill complains of no machine."""


def with_a_hail(read: Reading, words: Sequence[Word]) -> Reading:
    """*read*, and that it is mended where a statement of its own says so: “cleaned the vent, worked!!”."""
    if read.symptoms or read.hazards or "fixed" in read.intents or not hails(words):
        return read
    kept = tuple(code for code in read.intents if code not in ("not_fixed", "report_problem", "thanks"))
    return replace(read, intents=("fixed", *kept))


def unworded(read: Reading, words: Sequence[Word], asked: Asked | None) -> Reading:
    """
    The text *read* with what its *words* want by their build, where nothing was *asked* and it wants nothing yet but thanks.

    A question about no fault is one for help. A machine named without a question is complained of, unless it is praised.
    """
    if asked is not None or len(words) < _FEWEST:
        return read
    if _asks_for_a_part(read) and all(word.form not in _FAILED for word in words):
        sure = tuple(code for code in read.intents if code != "report_problem")
        return replace(read, intents=sure, symptoms=())
    if _ONLY_TOLD.issuperset(read.intents) and "report_problem" in read.intents:
        return replace(read, intents=("ask_help",)) if _merely_asks(read, words) else read
    if read.intents == ("not_fixed",):
        return replace(read, intents=("report_problem", "not_fixed")) if _fails(read, words) else read
    if not _ALL_BUT_NOTHING.issuperset(read.intents):
        return read
    code, why = _wanted(read, words, {word.form for word in words})
    return replace(read, intents=(code,), notes=(*read.notes, why)) if code else read


def _wanted(read: Reading, words: Sequence[Word], forms: set[str]) -> tuple[str, str]:
    """What is wanted, and a sentence that says why; empty for nothing."""
    if asks_something(words):
        handed_on = bool(_A_MESSAGE & forms) and _hands_on(words)
        return ("", "") if handed_on else ("ask_help", "It asks, and tells no fault.")
    if not read.appliances:
        return "", ""
    if _praises(forms, read):
        return "fixed", "A machine is praised and thanks are said."
    by_the_way = len(words) <= _SHORT and not _WHO_AND_WHERE.isdisjoint(read.facts)
    if any(found.rule == CLEARED for found in read.denied):
        return "", ""  # "the puddle was the dog bowl, not the dishwasher"
    if read.intents or read.corrects or by_the_way or _supposes(words) or _NOT_OF_IT & forms or is_sound(words):
        return "", ""
    return "report_problem", "A machine is spoken of, and nothing is asked."


def _asks_for_a_part(read: Reading) -> bool:
    """Whether no more is told than which part is asked about: “how much for a dryer belt”, “shocked at the price”."""
    if "report_problem" not in read.intents or _OF_THE_WORK.isdisjoint(read.intents) or read.hazards or read.denied:
        return False
    return bool(read.theories) and all(found.rule == "theory" for found in read.symptoms)


def _supposes(words: Sequence[Word]) -> bool:
    """Whether all is but supposed, in one sentence: “if it quits again im buying a new one”."""
    return words[0].form == "if" and all(word.brk < 2 for word in words[1:])


def _merely_asks(read: Reading, words: Sequence[Word]) -> bool:
    """Whether a fault is but asked about, or of what is no machine of the shop's: “how hot is too hot, works great”."""
    if read.hazards or not asks_something(words):
        return False
    if read.appliances == ("other",) or _asks_whether_normal(read.text):
        return True
    forms = [word.form for word in words]
    if forms[-1] in _SURELY_SO and not _NOTHING_BUT.isdisjoint(pairwise(forms)):
        return True
    return not _NO_FAULT.isdisjoint(forms) or is_sound(words) or not _AS_IT_SHOULD.isdisjoint(pairwise(forms))


def _asks_whether_normal(text: str) -> bool:
    """“is it normal for the fridge to gurgle at night?”: not “is that normal or is it broke”."""
    folded = fold(text)
    return _NORMAL.search(folded) is not None and _OR_NOT.search(folded) is None


_NORMAL = re.compile(
    r"\b(?:is|are) (?:it|that|this|these|those|they)(?: \w+)? normal\b|"
    r"\bis (?:it|that|this) (?:right|how it (?:is|works)|supposed to)\b|"
    r"\b(?:es|son|sera|seran|estara) (?:eso )?normal(?:es)? (?:que|q|k|ke)\b|"
    r"(?:^|[.!?,] )(?:eso |esto )?(?:es|sera) normal\b(?=\W*$|\?)"
)
_OR_NOT = re.compile(
    r"\bor\b|\bo (?:no|ya|esta|se)\b|\bbut\b|\bpero\b|\balso\b|\btambien\b|\bunrelated\b|\banyway\b|"
    r"\b(?:this|so) (?:hot|loud|slow|long|much|bad|warm|noisy|cold)\b|\btan\b|\basi\b"
)
"""With one of these the question is a complaint as well: “is it normal for the dryer to get this hot”."""


def _fails(read: Reading, words: Sequence[Word]) -> bool:
    """Whether what did not help is told of a machine, or with what it does not do: “new belt or not, it still wont tumble”."""
    return bool(read.appliances) or any(word.en == "not" for word in words)


def asks_who_pays(words: Sequence[Word]) -> bool:
    """Whether *words* that speak of a warranty ask of it, and do not only say that there is one."""
    forms = [word.form for word in words]
    return not (_WHO_PAYS.isdisjoint(forms) and _IS_IT.isdisjoint(pairwise(forms)) and not asks_something(words))


def asks_something(words: Sequence[Word]) -> bool:
    """Whether *words* ask: by a mark, by their build, or by saying so."""
    if any(word.asks for word in words) or questions(words).plain:
        return True
    return any(_opens(words, at) for at in range(len(words) - 1)) or _wants_a_yes(words)


def _wants_a_yes(words: Sequence[Word]) -> bool:
    """Whether *words* end as one asks for a yes: “its just dust burning off right”; not “it doesnt close right”."""
    if words[-1].form in ("verdad", "verda"):
        return True
    return words[-1].form == "right" and all(word.en != "not" for word in words)


def _opens(words: Sequence[Word], at: int) -> bool:
    """Whether a question opens *at* this word: “do you guys”, “would a”, “who runs”, “como le hago”, “era pa preguntar”."""
    form, after = words[at].form, words[at + 1].form
    begins = at == 0 or words[at].brk > 0
    if form in ("es", "sera") and after == "normal":
        return at == 0  # "es normal q huela la primera vez"
    if form in _TO_ASK:
        return after not in ("mark", "marks")
    if form in _TURNED_TO_YOU and after in _YOU:
        return at == 0 or words[at - 1].form not in _BEFORE_A_PLEA
    if form in TURNED and after in _ONE:
        return begins
    if form in _WHO:
        return at == 0 or words[at].brk == 2
    if form == "se" and after in ("puede", "pueden", "podra", "podria"):
        return begins
    third = words[at + 2].form if at + 2 < len(words) else ""
    if form == "como" and after in _OBJECTS:
        return third in _DONE or (third in _OBJECTS and at + 3 < len(words) and words[at + 3].form in _DONE)
    return form == "con" and after == "que" and third in _OBJECTS


def _hands_on(words: Sequence[Word]) -> bool:
    """Whether it is asked to pass something on, or to give: “can you tell the technician”, “would yall sponsor”."""
    forms = [word.form for word in words if word.form not in ("all", "guys", "please")]
    asked = zip(forms, forms[1:], forms[2:], strict=False)
    return any(who in _YOU and does in _A_MESSAGE and whom not in _TO_ME for who, does, whom in asked)


def _praises(forms: set[str], draft: Reading) -> bool:
    """Whether a machine is spoken of as good, with thanks or since somebody came."""
    good = bool(draft.denied or _GOOD & forms) and not _BUT & (forms - {"no"} if "more" in forms else forms)
    return good and bool(_THANKS & forms or (_SINCE & forms and _CAME & forms))
