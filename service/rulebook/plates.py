"""Model and serial numbers as they are compared: letters and digits alone, whatever signs stand between them."""

from __future__ import annotations

import re


def plate(number: str) -> str:
    """*number* in capitals without signs or spaces: ``dw-24 b`` is ``DW24B``."""
    return re.sub(r"[^0-9A-Z]", "", number.upper())
