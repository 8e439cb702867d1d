"""
Texts read in bulk: one JSON object in, one out, codes as in the vocabulary. By the rules alone: no database, no
network.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from service.reading.dangers.danger_answers import told_when_asked
from service.reading.model import ASKED_KINDS, Answer, Asked, Choice, Found, HazardFound, Reading, Wish
from service.reading.reader import Reader
from service.reading.words.lexicon import LANGUAGES

ANSWERED = 0.9
"""The score of a symptom that a yes or no tells of."""


class LineMistaken(ValueError):
    """A line that cannot be read; the message names the field, what was found and what is expected."""


def read_line(reader: Reader, line: Mapping[str, Any], *, this_year: int | None = None) -> dict[str, Any]:
    """
    The reading of one line: ``id`` and ``text``, optional ``media``, ``asked``, ``about`` (appliance, code), ``offers``,
    and ``language``: the conversation's, which a text without words takes (without it, the first there is).

    *this_year* turns a year of purchase into an age. Raises LineMistaken for a missing or wrong field.
    """
    text = line.get("text")
    if not isinstance(text, str):
        raise LineMistaken(f"line {line.get('id')!r}: “text” must be a string, found {type(text).__name__}")
    media = line.get("media") or 0
    if not isinstance(media, int):
        raise LineMistaken(f"line {line.get('id')!r}: “media” must be a number, found {media!r}")
    about = line.get("about") or {}
    if not isinstance(about, Mapping):
        raise LineMistaken(
            f"line {line.get('id')!r}: “about” must be an object with appliance and code, found {about!r}"
        )
    spoken = line.get("language")
    if spoken not in (None, *LANGUAGES):
        raise LineMistaken(
            f"line {line.get('id')!r}: “language” must be one of {', '.join(LANGUAGES)}, found {spoken!r}"
        )
    asked = _asked(line, about)
    reading = reader.read(text, media=media, asked=asked, about=about.get("appliance"), this_year=this_year)
    read = as_json(_answered(reading, asked, reader))
    if reading.language == "unknown":
        read["language"] = spoken or LANGUAGES[0]
    return {"id": line.get("id"), **read}


def _answered(reading: Reading, asked: Asked | None, reader: Reader) -> Reading:
    """
    *reading* with what a yes or no says of the symptom or hazard that was asked about; of a hazard a hedged yes counts, and
    so does “not sure”; and with the symptom that is chosen of several.
    """
    if asked is not None and asked.kind == "symptom" and reading.answer is not None and reading.answer.kind == "choice":
        return _told_of(reading, asked, reading.answer.value, reader)
    if asked is not None and asked.kind == "code" and reading.answer is not None and reading.answer.kind == "none":
        return _denied(reading, asked, "error_code", reader)
    if asked is not None and asked.kind == "check_result" and "not_fixed" in reading.intents:
        return _still_so(reading, asked, reader)
    answer, code = reading.answer, asked.code if asked and asked.kind == "yes_no" else None
    if answer is None or asked is None or code is None:
        return reading
    yes = answer.kind == "yes" or (answer.kind == "dont_know" and code in reader.hazard_codes)
    if not yes and answer.kind != "no":
        return reading
    if code in reader.hazard_codes:
        return told_when_asked(reading, code)
    appliance = asked.appliance or "unknown"
    if code not in reader.symptom_codes or any(
        f.code == code and f.appliance == appliance for f in (*reading.symptoms, *reading.denied)
    ):
        return reading
    found = Found(appliance, code, ANSWERED, reading.text, 0, len(reading.text), "answer")
    if yes:
        return replace(reading, symptoms=(*reading.symptoms, found))
    return replace(reading, denied=(*reading.denied, found))


def _told_of(reading: Reading, asked: Asked, code: str | None, reader: Reader) -> Reading:
    """*reading* with the symptom *code* that was chosen, if it is one and not told by its words already."""
    if code is None or code not in reader.symptom_codes or any(f.code == code for f in reading.symptoms):
        return reading
    found = Found(asked.appliance or "unknown", code, ANSWERED, reading.text, 0, len(reading.text), "answer")
    return replace(reading, symptoms=(*reading.symptoms, found))


def _still_so(reading: Reading, asked: Asked, reader: Reader) -> Reading:
    """*reading* with the symptom for which a check was made that did not help."""
    code = asked.code
    if code not in reader.symptom_codes or reading.symptoms or reading.hazards:
        return reading  # what else is told took its place
    if any(f.code == code for f in reading.denied):
        return reading
    found = Found(asked.appliance or "unknown", code, ANSWERED, reading.text, 0, len(reading.text), "answer")
    return replace(reading, symptoms=(found,))


def _denied(reading: Reading, asked: Asked, code: str, reader: Reader) -> Reading:
    """*reading* with the denial of *code*, if it is a symptom and not told or denied already."""
    if code not in reader.symptom_codes or any(f.code == code for f in (*reading.symptoms, *reading.denied)):
        return reading
    found = Found(asked.appliance or "unknown", code, ANSWERED, reading.text, 0, len(reading.text), "answer")
    return replace(reading, denied=(*reading.denied, found))


def _asked(line: Mapping[str, Any], about: Mapping[str, Any]) -> Asked | None:
    kind = line.get("asked")
    if kind is None:
        return None
    if kind not in (*ASKED_KINDS, "observation", "confirm"):
        raise LineMistaken(f"line {line.get('id')!r}: “asked” is {kind!r}, expected one of {', '.join(ASKED_KINDS)}")
    choices = tuple(
        Choice(str(c), str(c)) if not isinstance(c, Mapping) else Choice(c["value"], c["say"])
        for c in line.get("choices") or ()
    )
    return Asked(kind, about.get("appliance"), about.get("code"), choices, tuple(map(str, line.get("offers") or ())))


def as_json(reading: Reading) -> dict[str, Any]:
    """*reading* as plain values."""
    return {
        "language": reading.language,
        "intents": list(reading.intents),
        "appliances": list(reading.appliances),
        "symptoms": [
            {"appliance": f.appliance, "code": f.code, "score": f.score, "words": f.words} for f in reading.symptoms
        ],
        "denied": [_pair(f) for f in reading.denied],
        "hazards": [_hazard(h) for h in reading.hazards],
        "denied_hazards": [h.code for h in reading.denied_hazards],
        "doubted_hazards": [h.code for h in reading.doubted_hazards],
        "may_want_no_more": reading.may_want_no_more,
        "urgency": list(reading.urgency),
        "facts": {name: list(v) if isinstance(v, tuple) else v for name, v in reading.facts.items()},
        "observations": [
            {"appliance": s.appliance, "id": s.id, "value": s.value, "words": s.words} for s in reading.observations
        ],
        "theories": [{"appliance": t.appliance, "cause": t.cause, "words": t.words} for t in reading.theories],
        "wish": _wish(reading.wish),
        "answer": _answer(reading.answer),
        "corrects": reading.corrects,
        "notes": list(reading.notes),
    }


def _pair(found: Found) -> dict[str, str]:
    return {"appliance": found.appliance, "code": found.code}


def _hazard(hazard: HazardFound) -> dict[str, str]:
    return {"code": hazard.code, "words": hazard.words}


def _answer(answer: Answer | None) -> dict[str, Any] | None:
    if answer is None:
        return None
    return {"kind": answer.kind, "value": answer.value, "index": answer.index, "hedged": answer.hedged}


def _wish(wish: Wish | None) -> dict[str, Any] | None:
    if wish is None:
        return None
    return {
        "days_in": list(wish.days_in),
        "days_out": list(wish.days_out),
        "dates": [list(d) for d in wish.dates],
        "relative": list(wish.relative),
        "relative_out": list(wish.relative_out),
        "week": wish.week,
        "start": wish.start.strftime("%H:%M") if wish.start else None,
        "end": wish.end.strftime("%H:%M") if wish.end else None,
        "part": wish.part,
        "also": [[at.strftime("%H:%M") if at else None for at in hours] for hours in wish.also],
        "apart": [_wish(one) for one in wish.apart],
        "soonest": wish.soonest,
        "words": wish.words,
    }
