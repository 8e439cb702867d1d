"""Readers at work: one for all editions that hear the same words, for as long as one of them lives."""

from __future__ import annotations

import gc
from threading import RLock
from weakref import WeakValueDictionary, finalize

from service.reading.reader import Reader
from service.rulebook.model import Rulebook

_BY_WORDS: WeakValueDictionary[str, Reader] = WeakValueDictionary()
_BY_BOOK: dict[int, Reader] = {}
_COMPILING = RLock()


def reader_for(rulebook: Rulebook) -> Reader:
    """
    The reader of *rulebook*, compiled once for all editions that hear the same words. It lives as long as one of them does:
    a reader takes a hundred megabytes, and rules that are edited all day would leave one with every edition.
    """
    return _BY_BOOK.get(id(rulebook)) or _newly_held(rulebook)


def _newly_held(rulebook: Rulebook) -> Reader:
    words = rulebook.heard_as or rulebook.fingerprint
    with _COMPILING:
        reader = _BY_WORDS.get(words) or _compiled(rulebook)
        _BY_WORDS[words] = _BY_BOOK[id(rulebook)] = reader
        finalize(rulebook, _BY_BOOK.pop, id(rulebook), None).atexit = False
    return reader


def _compiled(rulebook: Rulebook) -> Reader:
    at_work = gc.isenabled()
    gc.disable()
    try:
        return Reader(rulebook)
    finally:
        if at_work:
            gc.enable()
