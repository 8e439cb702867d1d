"""What goes out when a turn fails: the danger instruction if there is one, else one stock sentence. Leans on little."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence

from service.conversation.step import Reply
from service.conversation.underway import spoken
from service.reading.readers import reader_for
from service.rulebook.model import Rulebook
from service.rulebook.schema.danger import Danger
from service.wording.sentences import say


def stock_reply(rulebook: Rulebook, texts: Sequence[str], language: str) -> tuple[Reply, ...]:
    """
    The gravest danger's instruction when *texts* name one, else the sentence that a person reads this.

    Looks for dangers with the reader, and by the bare words of the danger rules where the reader itself fails.
    """
    codes = _found(rulebook, texts)
    rules = sorted((rulebook.dangers[c] for c in codes if c in rulebook.dangers), key=lambda d: d.rank)
    if rules:
        text = rules[0].instruction.say.in_(language)
        if not text.startswith(rules[0].signal):
            text = f"{rules[0].signal}: {text}" if language != "es" else text
        return (Reply(kind="danger", text=text, wording=(f"danger.{rules[0].code}",)),)
    shop = rulebook.shop
    text = say(rulebook, language, "trouble.stock", shop=shop.name, phone=spoken(shop.office_phone))
    return (Reply(kind="answer", text=text, wording=("trouble.stock",)),)


def _found(rulebook: Rulebook, texts: Sequence[str]) -> set[str]:
    try:
        reader = reader_for(rulebook)
        return {h.code for text in (*texts, " ".join(texts)) for h in reader.hazards(text)}
    except Exception:  # a reader that fails must not cost the warning
        return {d.code for d in rulebook.dangers.values() if any(_named(d, text) for text in texts)}


def _named(danger: Danger, text: str) -> bool:
    """Whether a wording without notation stands in *text* as it is written."""
    words = f" {' '.join(re.findall(r'[a-z0-9]+', _bare(text)))} "
    signs = (*danger.signs.en, *danger.signs.es)
    plain = [" ".join(re.findall(r"[a-z0-9]+", _bare(s))) for s in signs if not re.search(r"[\[\]()*=|]", s)]
    return any(f" {sign} " in words for sign in plain if sign)


def _bare(text: str) -> str:
    """Lower case without accents."""
    apart = unicodedata.normalize("NFD", text.lower())
    return "".join(c for c in apart if not unicodedata.combining(c))
