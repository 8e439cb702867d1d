"""
What a text wants that no wording says and no symptom tells: it asks something, says that a machine works again, or complains of it.
"""

from __future__ import annotations

from collections.abc import Sequence

from service.reading.asking import TURNED, questions
from service.reading.model import Asked, Reading
from service.reading.normalising import Word

_ALL_BUT_NOTHING = frozenset(("thanks",))
"""Said beside a question or praise it is but a courtesy."""

_YOU = frozenset(("you", "u", "yall", "ya", "yous", "ustedes", "uds", "usted", "ud"))
_TURNED_TO_YOU = TURNED | {"r", "have", "d"}
_ONE = frozenset(("a", "an", "anyone", "anybody", "somebody", "someone", "both", "all", "most", "new", "old", "gas", "these", "those"))
_TO_ASK = frozenset((
    "wondering", "wonder", "wondered", "curious", "question", "pregunto", "preguntar", "preguntarle", "preguntarles", "pregunta",
    "preguntita", "duda", "curiosidad", "saber",
))  # fmt: skip
"""With these a question is announced: "just wondering if", "era para preguntar si", "tengo una duda"."""
_WHO = frozenset(("who", "quien", "quienes"))
_OBJECTS = frozenset(("le", "les", "lo", "la", "los", "las", "se"))
_DONE = frozenset(("hago", "ago", "hace", "ase", "hacen", "hacemos", "quita", "quito", "saca", "saco", "limpia", "limpio", "usa", "uso"))
"""After "como le", "como se": how a thing is done."""
_BEFORE_A_PLEA = frozenset(("as", "than", "like", "since"))
_THANKS = frozenset(("thanks", "thank", "thx", "ty", "gracias", "best", "appreciate", "kudos", "bless"))
_SINCE = frozenset(("since", "after", "desde", "dende"))
_CAME = frozenset(("came", "visit", "fix", "fixed", "repair", "repaired", "left", "vino", "vinieron", "arreglo", "arreglaron"))
_NOT_OF_IT = frozenset(("forgot", "olvido", "olvide", "equivocado", "email", "bill", "invoice"))
"""Who adds a word about the file or the bill complains of no machine."""


def unworded(intents: tuple[str, ...], draft: Reading, words: Sequence[Word], asked: Asked | None) -> tuple[str, ...]:
    """
    *intents* of the text *draft*; where there are none but thanks, and nothing was *asked*, what the *words* want by their build.

    A question about no fault is one for help. A machine that is named without a question is complained of, unless it is praised.
    """
    if asked is not None or not _ALL_BUT_NOTHING.issuperset(intents) or not words:
        return intents
    if asks_something(words):
        return ("ask_help",)
    if not draft.appliances:
        return intents
    forms = {word.form for word in words}
    if _praises(forms, draft):
        return ("fixed",)
    if intents or draft.corrects or _NOT_OF_IT & forms:
        return intents
    return ("report_problem",)


def asks_something(words: Sequence[Word]) -> bool:
    """Whether *words* ask: by a mark, by their build, or by saying so."""
    if any(word.asks for word in words) or questions(words).plain:
        return True
    return any(_opens(words, at) for at in range(len(words) - 1))


def _opens(words: Sequence[Word], at: int) -> bool:
    """Whether a question opens *at* this word: “do you guys”, “would a”, “who runs”, “como le hago”, “era pa preguntar”."""
    form, after = words[at].form, words[at + 1].form
    begins = at == 0 or words[at].brk > 0
    if form in _TO_ASK:
        return after not in ("mark", "marks")
    if form in _TURNED_TO_YOU and after in _YOU:
        return at == 0 or words[at - 1].form not in _BEFORE_A_PLEA
    if form in TURNED and after in _ONE:
        return begins
    if form in _WHO:
        return at == 0 or words[at].brk == 2
    third = words[at + 2].form if at + 2 < len(words) else ""
    if form == "como" and after in _OBJECTS:
        return third in _DONE or (third in _OBJECTS and at + 3 < len(words) and words[at + 3].form in _DONE)
    return form == "con" and after == "que" and third in _OBJECTS


def _praises(forms: set[str], draft: Reading) -> bool:
    """Whether a machine is spoken of with thanks, or as it is since somebody came."""
    if _THANKS & forms:
        return bool(draft.denied) or not draft.theories
    return bool(_SINCE & forms and _CAME & forms and draft.denied)
