"""Which choice a short reply takes by the wordings the rules have for it: “front”, “por abajo”, “at the end”."""

from __future__ import annotations

import re
from collections.abc import Container, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import islice, product

from service.reading.model import Answer, Asked, Reading
from service.reading.replies.answers import read_answer
from service.reading.replies.option_words import ABOUT, DENYING
from service.reading.words.matching import Hit
from service.reading.words.normalising import Word, fold
from service.reading.words.notation import Group, Phrase, Plain, parse
from service.reading.words.stemming import stem_en, stem_es
from service.rulebook.model import Rulebook

MOST_WORDS = 9
"""A reply of more words tells more than one choice."""
MOST_WAYS = 400
"""Ways to say one phrase that are looked at."""
MOST_BARE = 4
"""A reply of up to so many words may be only a part of a wording: “upper”."""
OUTRIGHT = 2
"""So many telling words of one wording weigh more than a choice taken by a word in common."""
_MAY_GIVE_WAY = frozenset(("yes", "no", "choice", "none", "either"))
_STEMS = {"en": stem_en, "es": stem_es}
_OF_ANY_FAULT = frozenset((
    "leak", "leaks", "leaking", "drip", "drips", "dripping", "noise", "sound", "sounds", "sounding", "hear", "heard", "makes",
    "making", "comes", "coming", "goes", "going", "gets", "getting", "should", "supposed", "tries", "trying", "about", "like",
    "kind", "than", "then", "but", "if", "have", "has", "had", "been", "by", "gotea", "chorrea", "tira", "sale", "saca", "cae",
    "ruido", "suena", "oye", "hace", "hacen", "como", "pero", "esta", "estan", "sea", "fue", "ha", "han", "he", "hemos",
    "quiere", "machine", "unit", "appliance", "maquina", "aparato",
))  # fmt: skip
"""Words of a wording that tell the fault, not which choice of it."""


@dataclass(frozen=True, slots=True)
class Way:
    """One way to say a choice: the stems of its telling words, and whether it denies."""

    language: str
    stems: frozenset[str]
    denies: bool


class Replies:
    """The ways to say each choice of every question, made when a question is first answered."""

    def __init__(self, rulebook: Rulebook) -> None:
        self._rules = rulebook.appliances
        self._ways = lru_cache(maxsize=1024)(self._ways_of)

    def answer(
        self,
        asked: Asked | None,
        words: Sequence[Word],
        hits: Sequence[Hit],
        text: Reading,
        media: int,
        dangers: Container[str],
    ) -> Answer | None:
        """What a text answers to what was asked, by its own words or by the wordings of the rules."""
        return self.taken(asked, _besides_the_name(words, text), read_answer(asked, words, hits, text, media, dangers))

    def taken(self, asked: Asked | None, words: Sequence[Word], answer: Answer | None) -> Answer | None:
        """
        *answer*, or the one choice whose wording the words hold: where there is no answer or a bare yes or no, or where the
        wording is of more than one word and the choice that was taken has less of them.
        """
        if asked is None or asked.kind != "observation" or len(words) > MOST_WORDS:
            return answer
        if not asked.choices:
            return self._yes_or_no(asked, words, answer)
        if answer is not None and (answer.kind not in _MAY_GIVE_WAY or any(w.form.isdigit() for w in words)):
            return answer
        known = self._ways(asked.appliance or "", asked.code or "")
        ways = [known.get(choice.value, frozenset()) for choice in asked.choices]
        told = {denies: _spoken(words, denies=denies) for denies in (False, True)}
        held = [max((len(w.stems) for w in own if w.stems <= told[w.denies][w.language]), default=0) for own in ways]
        if not any(held) and answer is None and len(words) <= MOST_BARE:
            held = _only_here(ways, told)
        most = max(held)
        if most == 0 or held.count(most) > 1:
            return answer
        if answer is not None and answer.kind in ("none", "either") and most < OUTRIGHT:
            return answer
        if answer is not None and answer.kind == "choice" and most < OUTRIGHT and held[answer.index or 0]:
            return answer
        place = held.index(most)
        return Answer("choice", asked.choices[place].value, place, hedged=answer is not None and answer.hedged)

    def _yes_or_no(self, asked: Asked, words: Sequence[Word], answer: Answer | None) -> Answer | None:
        """*answer*, or the yes or no that the rules' short replies or an echo of the question tell: “solid”, “it clicks”."""
        not_so = _begins_not_so(words)
        if words and words[0].form in _PLAIN and not not_so:
            return answer
        if answer is not None and answer.kind not in _MAY_GIVE_WAY and not (not_so and answer.kind == "dont_know"):
            return answer
        known = self._ways(asked.appliance or "", asked.code or "")
        told = {denies: _spoken(words, denies=denies) for denies in (False, True)}
        held = {
            value: max((len(w.stems) for w in known.get(value, ()) if w.stems <= told[w.denies][w.language]), default=0)
            for value in ("yes", "no")
        }
        hedged = answer is not None and answer.hedged
        if held["yes"] != held["no"]:
            return Answer("yes" if held["yes"] > held["no"] else "no", hedged=hedged)
        if (answer is None or answer.kind == "dont_know") and len(words) <= MOST_BARE:
            return self._echo(asked, words) or answer
        return answer

    def _echo(self, asked: Asked, words: Sequence[Word]) -> Answer | None:
        """The question's own words said back: “it clicks”, “no se mueve”; none where it asks two things in one."""
        rules = self._rules.get(asked.appliance or "")
        known = rules.observations.get(asked.code or "") if rules is not None else None
        if known is None:
            return None
        for language in _STEMS:
            ask = known.ask.in_(language)
            if _TWO_THINGS & set(_forms(ask)):
                continue
            said = [w.en if language == "en" else w.es for w in words if w.form not in ABOUT and not _denies(w.form)]
            if said and set(said) <= _stems_of(ask, language):
                return Answer("no" if any(_denies(word.form) for word in words) else "yes")
        return None

    def _ways_of(self, appliance: str, code: str) -> dict[str, frozenset[Way]]:
        """Each answer of an observation to the ways in which the rules hear it; none for what the rules do not know."""
        rules = self._rules.get(appliance)
        known = rules.observations.get(code) if rules is not None else None
        if rules is None or known is None:
            return {}
        found: dict[str, frozenset[Way]] = {}
        asking = {
            language: _stems_of(known.ask.in_(language), language)
            - {stem for answer in known.answers for stem in _stems_of(answer.say.in_(language), language)}
            for language in _STEMS
        }
        names = {
            language: {_STEMS[language](form) for name in rules.basics.names.in_(language) for form in _forms(name)}
            for language in _STEMS
        }
        for value, short in known.replies.items():
            found[value] = frozenset(
                way
                for language in _STEMS
                for phrase in short.in_(language)
                for way in _ways_to_say(phrase, language, set(), set())
            )
        for answer in known.answers:
            found[answer.value] = found.get(answer.value, frozenset()) | frozenset(
                way
                for language in _STEMS
                for phrase in (*answer.hears.in_(language), re.sub(r"[^\w\s']", " ", answer.say.in_(language)))
                for way in _ways_to_say(phrase, language, asking[language], names[language])
            )
        return found


_PLAIN = frozenset(("yes", "yeah", "yep", "yup", "yea", "si", "no", "nope", "nah"))
"""A text that begins so has said it."""
_TWO_THINGS = frozenset(("and", "or", "y", "o", "only", "solo"))


def _besides_the_name(words: Sequence[Word], text: Reading) -> Sequence[Word]:
    """*words* without a name told among them: “its Priya” answers nothing, whatever word it is like."""
    name = text.facts.get("name")
    at = text.text.find(name) if isinstance(name, str) and name else -1
    return words if at < 0 else [word for word in words if not at <= word.start < at + len(str(name))]


def _begins_not_so(words: Sequence[Word]) -> bool:
    """“no se mueve”: no “no sé”."""
    return len(words) > 2 and words[0].form == "no" and words[1].form == "se" and not words[1].accented


def _forms(phrase: str) -> list[str]:
    return re.findall(r"[a-z0-9]+", fold(phrase))


def _stems_of(text: str, language: str) -> set[str]:
    return {_STEMS[language](form) for form in _forms(text)}


def _spoken(words: Sequence[Word], *, denies: bool) -> dict[str, set[str]]:
    """The stems of each language in the statements of a text that deny, or in those that do not."""
    statements: list[list[Word]] = []
    for word in words:
        if word.brk or not statements:
            statements.append([])
        statements[-1].append(word)
    told = [word for words in statements if any(_denies(w.form) for w in words) == denies for word in words]
    return {"en": {word.en for word in told}, "es": {word.es for word in told}}


_WORKS = {
    language: frozenset(map(stem, words.split()))
    for language, stem, words in (
        ("en", stem_en, "work works working come run runs"), ("es", stem_es, "sirve sirven jala jalan funciona anda prende"),
    )
}  # fmt: skip
"""That something works tells no choice by itself: “light works”, asked for the speeds of the fan."""


def _only_here(ways: Sequence[frozenset[Way]], told: Mapping[bool, Mapping[str, set[str]]]) -> list[int]:
    """How many words of the reply stand in wordings of each choice, and in none of another."""
    own = [{(way.language, stem) for way in known for stem in way.stems} for known in ways]
    said = {(language, stem) for language, stems in told[False].items() for stem in stems - _WORKS[language]}
    return [len({mark[1] for mark in mine & said if sum(mark in other for other in own) == 1}) for mine in own]


def _denies(form: str) -> bool:
    return form in DENYING or form == "ni" or (form.endswith("nt") and form[:-2] in _HELPERS)


_HELPERS = frozenset(
    ("do", "does", "did", "is", "are", "was", "wo", "ca", "has", "have", "had", "could", "would", "ai")
)


def _ways_to_say(phrase: str, language: str, asking: set[str], names: set[str]) -> Iterator[Way]:
    """The telling words of each way to say *phrase*, but for the question's, and the machine's names where others are left."""
    for forms in islice(_ways(parse(phrase)), MOST_WAYS):
        stem = _STEMS[language]
        denial = next((at for at, form in enumerate(forms) if _denies(form)), None)
        kept = set()
        for at, form in enumerate(forms):
            if form in ABOUT or form in _OF_ANY_FAULT or _denies(form):
                continue
            # What is denied is mostly what was asked, and tells: “clicks but won't spin” is no “no clicks”.
            if stem(form) not in asking or (denial is not None and at > denial):
                kept.add(stem(form))
        telling = kept - names or kept
        if telling:
            yield Way(language, frozenset(telling), denial is not None)


def _ways(phrase: Phrase) -> Iterator[tuple[str, ...]]:
    """The forms of each way to say a phrase, without what may be missing."""
    parts: list[list[tuple[str, ...]]] = []
    for part in phrase:
        if isinstance(part, Plain):
            parts.append([(part.form,)])
        elif isinstance(part, Group) and not part.optional:
            parts.append([way for option in part.options for way in _ways(option)])
    for chosen in product(*parts):
        yield tuple(form for forms in chosen for form in forms)
