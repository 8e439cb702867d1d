"""Words as they are searched: small letters, accents forgiven; ``fold`` in Python, ``Folded`` in either database."""

from __future__ import annotations

import unicodedata
from typing import Any

from sqlalchemy import Text
from sqlalchemy.ext.compiler import compiles
from sqlalchemy.sql.functions import FunctionElement

SQLITE_FUNCTION = "plainfault_fold"


def fold(text: str | None) -> str | None:
    """*text* in small letters without accents; None for None, as SQL has it."""
    if text is None or text.isascii():
        return text.lower() if text else text
    apart = unicodedata.normalize("NFKD", text)
    return "".join(sign for sign in apart if not unicodedata.combining(sign)).casefold()


class Folded(FunctionElement[str]):
    """The column as ``fold`` would give it."""

    type = Text()
    inherit_cache = True


def _accented() -> tuple[str, str]:
    """The Latin letters with an accent, and each without; marks that stand for themselves go last and have no partner."""
    pairs = [(chr(code), fold(chr(code)) or "") for code in range(0xC0, 0x180)]
    known = [(sign, bare) for sign, bare in pairs if len(bare) == 1 and bare.isascii() and bare.isalpha()]
    marks = "".join(chr(code) for code in range(0x300, 0x370))
    return "".join(sign for sign, _ in known) + marks, "".join(bare for _, bare in known)


_WITH, _WITHOUT = _accented()


@compiles(Folded, "sqlite")
def _sqlite(element: Any, compiler: Any, **kw: Any) -> str:
    return f"{SQLITE_FUNCTION}({compiler.process(element.clauses, **kw)})"


@compiles(Folded, "postgresql")
def _postgresql(element: Any, compiler: Any, **kw: Any) -> str:
    return f"lower(translate({compiler.process(element.clauses, **kw)}, '{_WITH}', '{_WITHOUT}'))"
