"""Logs: one JSON object a line, a constant phrase and its fields. Never a number, an address or a text of a customer."""

from __future__ import annotations

import json
import logging
from datetime import UTC, datetime

_PLAIN = frozenset(vars(logging.makeLogRecord({}))) | {"message", "asctime", "taskName"}


class JsonLines(logging.Formatter):
    """Writes a record as one JSON object with its extra fields; an error's traceback goes into ``error``."""

    def format(self, record: logging.LogRecord) -> str:
        """The line, without its end."""
        line: dict[str, object] = {
            "at": datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds"),
            "level": record.levelname,
            "room": record.name,
            "what": record.getMessage(),
        }
        line.update({name: value for name, value in vars(record).items() if name not in _PLAIN})
        if record.exc_info and record.exc_info[0]:
            line["error"] = record.exc_info[0].__name__
            line["where"] = _where(record)
        return json.dumps(line, default=str)


def _where(record: logging.LogRecord) -> list[str]:
    """The frames of the error, without its message: a message may quote what a customer wrote."""
    frames = []
    trace = record.exc_info[2] if record.exc_info else None
    while trace:
        frames.append(f"{trace.tb_frame.f_code.co_filename.rsplit('/', 1)[-1]}:{trace.tb_lineno}")
        trace = trace.tb_next
    return frames[-8:]


def set_up_logs(level: str) -> None:
    """Send every log of *level* and above to standard error as JSON lines."""
    handler = logging.StreamHandler()
    handler.setFormatter(JsonLines())
    root = logging.getLogger()
    root.handlers[:] = [handler]
    root.setLevel(level.upper())
    logging.getLogger("urllib3").setLevel(logging.ERROR)  # it logs addresses with their query, even in its warnings
