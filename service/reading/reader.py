"""The reader: one text in the light of what was asked, to a Reading. Compiled once per rulebook, then pure and fast."""

from __future__ import annotations

import gc
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache

from service.reading.aims.consent import Consent, consent_of
from service.reading.aims.intents import heard_intents, intents_of, with_the_time
from service.reading.aims.telling import (
    drop_no_wish,
    event_places,
    implied_names,
    is_hazards_own,
    keep_wish,
    listed_appliances,
    outside_names,
    reasons,
    still_there,
    told_beside,
    urgencies,
)
from service.reading.aims.unworded import unworded
from service.reading.aims.wanting import Wanted, Wanting
from service.reading.dangers.alarming import alarmed, danger_told
from service.reading.dangers.danger_answers import still_stands
from service.reading.dangers.hazards import Screened, screen
from service.reading.details.attempts import LISTS, Attempts
from service.reading.details.facts import FactFinder
from service.reading.details.names import Namer
from service.reading.faults.asked_about import told_of_the_asked
from service.reading.faults.beside import without_the_faults_own
from service.reading.faults.bystanders import spoken_of
from service.reading.faults.completing import comes_up_in, completed, of_its_half
from service.reading.faults.faultless import without_fault
from service.reading.faults.polarity import Polarity
from service.reading.faults.stated import Statements
from service.reading.faults.symptoms import Judge
from service.reading.machines.brands import BrandFinder, brand_spellings
from service.reading.machines.mentions import UNKNOWN, find_mentions
from service.reading.machines.seeking import Seeker
from service.reading.model import Asked, HazardFound, Reading
from service.reading.opinion.halves import by_halves
from service.reading.opinion.leaning import TOLD_TEXTS, Heard, Leaner
from service.reading.opinion.second_opinion import SecondOpinion
from service.reading.opinion.told_texts import taught_dangers, taught_intents, taught_symptoms
from service.reading.replies.outright import is_another_answer
from service.reading.replies.replying import Replies
from service.reading.times.bare_times import answers_besides, says_only_when
from service.reading.times.time_said import wish_of
from service.reading.words.asking import questions, said_besides
from service.reading.words.clauses import Clause, Marks, cut_clauses, gather_marks
from service.reading.words.correcting import Corrector
from service.reading.words.language import LanguageTeller, is_readable
from service.reading.words.lexicon import (
    LANGUAGES,
    both_languages,
    compile_lexicon,
    known_stems,
    pairs,
    spelling_targets,
)
from service.reading.words.matching import Hit, by_kind
from service.reading.words.normalising import Normal, Normaliser, fold
from service.reading.words.spelling import Speller
from service.rulebook.model import Rulebook

MOST_SIGNS = 4000
"""Signs of a text that are read; carriers deliver at most 1,600 in one message."""


class Reader:
    """Reads texts by one rulebook. Get one with ``reader_for``; it holds no state between texts but a spelling cache."""

    def __init__(self, rulebook: Rulebook) -> None:
        self._lexicon = compile_lexicon(rulebook)
        self._rulebook = rulebook
        words = self._lexicon.words
        brands = brand_spellings(rulebook.shop.brands.serves, rulebook.shop.brands.refuses)
        shorthand = {**pairs(both_languages(words, "shorthand"))}
        done = {name: both_languages(words, name) for name in LISTS}
        everyday = (
            both_languages(words, "common")
            | both_languages(words, "traps")
            | {fold(w) for w in set().union(*done.values())}
        )
        self._only_traps = both_languages(words, "traps") - both_languages(words, "common")
        known = everyday | set(shorthand) | {part for brand in brands for part in brand.split()}
        self._speller = Speller(known, spelling_targets(self._lexicon), known_stems(self._lexicon))
        self._corrector = Corrector(self._speller, everyday)
        self._normaliser = Normaliser(shorthand, pairs(both_languages(words, "emoji")), self._speller.knows)
        trade = {language: frozenset(self._lexicon.forms(language)) for language in LANGUAGES}
        self._teller = LanguageTeller(words.get("common", {}), trade, frozenset(both_languages(words, "borrowed")))
        self._seeker = Seeker(self._lexicon, self._teller)
        given, family = both_languages(words, "given_names"), both_languages(words, "family_names")
        namer = Namer(self._is_word, self._speller.knows, everyday, given, family)
        maker = BrandFinder(brands, self._is_word, self._speller.knows, self._ordinary, given | family)
        self._facts = FactFinder(frozenset(rulebook.shop.area), maker, namer, Attempts(done))
        self._of_dangers = SecondOpinion(taught_dangers(rulebook), rulebook.kept_in, in_pieces=True)
        own_codes = {code: tuple(sorted(own)) for code, own in self._lexicon.codes.items()}
        of_symptoms = SecondOpinion(taught_symptoms(rulebook), rulebook.kept_in, in_depth=True)
        self._leaner = Leaner(of_symptoms, own_codes, self._lexicon.over)
        self._symptom_order = {code: number for number, code in enumerate(rulebook.vocabulary.symptoms)}
        self._intents = frozenset(rulebook.vocabulary.intents)
        self._replies = Replies(rulebook)
        wants = SecondOpinion(taught_intents(rulebook), rulebook.kept_in)
        self._wanting = Wanting(wants, sorted(rulebook.intents_told))
        self.symptom_codes = frozenset(rulebook.vocabulary.symptoms)
        self._danger_codes = tuple(sorted(rulebook.dangers))
        self.hazard_codes = frozenset(rulebook.vocabulary.hazards)

    def read(
        self,
        text: str,
        *,
        media: int = 0,
        asked: Asked | None = None,
        about: str | None = None,
        this_year: int | None = None,
    ) -> Reading:
        """
        What *text* says. media: pictures with it. asked: what stands open. about: the appliance. this_year: makes years ages.
        """
        about = next((a for a in (about, asked.appliance if asked else None) if a and a != UNKNOWN), None)
        typed = self._normaliser.words(text[:MOST_SIGNS])
        normal, spelled = self._corrector.corrected(typed)
        language = self._teller.language(text, typed.words)
        hits = self._seeker.hits(normal, language)
        kinds, hits = by_kind(hits), [hit for hit in hits if not is_another_answer(hit, asked)]
        talk, names = kinds["talk"], kinds["name"]
        marks = gather_marks(kinds["mark"], normal.words)
        named = frozenset(h.start for h in names)
        clauses = cut_clauses(normal.words, marks, named)
        polarity = Polarity.of(normal.words, marks, clauses, kinds["symptom"], named)
        screened = self._screen(normal, typed, marks, clauses, asked)
        consent = consent_of(self._lexicon, typed.words, text)
        hits += self._seeker.seen_through(hits, names, normal, language)
        hits += self._seeker.negated_inside(normal, language)
        mentions = find_mentions(
            names, normal.words, marks, [] if about else implied_names(hits), event_places(talk), about
        )
        judge = Judge(self._lexicon, normal, polarity, mentions, self._symptom_order)
        stated = judge.statements(hits, lambda hit: consent is not None or is_hazards_own(hit, screened))
        offered = asked is not None and asked.kind == "offer"
        told = self._facts.facts(normal, talk, polarity, mentions, asked, this_year, screened)
        facts = told.stated
        wish = wish_of(normal, talk, facts, offered=offered) if consent is None else None
        stated = outside_names(stated, (facts.get("address"), facts.get("name"), facts.get("brand")), normal.text)
        wanted = Wanted(heard_intents(talk, self._intents, normal, polarity, facts.get("address")))
        if consent is None:
            wanted = self._wanting.weighed(wanted.worded, normal.words, asked)
        stated = completed(
            stated, mentions, facts, wanted.worded, asked, normal, dangers=screened.codes, cleared=screened.cleared
        )
        if consent is None:
            heard = Heard(normal, clauses, mentions, asked, wanted.intents, told_beside(talk, marks), screened.raised)
            stated = comes_up_in(self._leant(stated, heard, hits, marks), normal, wanted.intents)
        alone = says_only_when(normal.words, wish, asked)
        if alone:
            facts.pop("name", None)
        wish = keep_wish(wish, facts, asked, wanted.intents, normal, alone=alone, complains=bool(stated.symptoms))
        draft = Reading(
            text=text,
            language=language,
            intents=wanted.intents,
            appliances=listed_appliances(
                spoken_of(mentions, stated, normal.words, marks, clauses, names, wanted.intents, bool(screened.raised)),
                stated,
                about,
                asked,
                self.hazard_codes,
            ),
            symptoms=stated.symptoms,
            denied=stated.denied,
            hazards=screened.raised,
            denied_hazards=screened.denied,
            urgency=urgencies(kinds["urgency"], polarity, screened),
            facts=facts,
            observations=stated.observations,
            theories=stated.theories,
            wish=wish,
            corrects=bool(marks.at("corrections")) or mentions.name_another(normal.words),
        )
        in_vain = still_there(talk, told, asked, draft, normal.words)
        if in_vain is not None:
            wanted = wanted.with_wording("not_fixed", in_vain)
            draft = replace(draft, intents=wanted.intents)
        answer = self._replies.answer(asked, normal.words, talk, draft, media, self.hazard_codes)
        if alone and asked is not None and not answers_besides(normal.words, asked):
            answer = None
        drop_no_wish(facts, wanted.intents, answer if offered else None, wish)
        wants = with_the_time(wanted.intents, draft, normal, asked)
        readable = bool(media or facts or wish) or is_readable(normal.words, self._speller.knows, language, asked)
        intents = intents_of(wants, consent, draft, answer, asked, readable=readable)
        notes = (
            *spelled,
            *screened.notes,
            *stated.notes,
            *reasons(wanted.worded, normal, answer, consent),
            *wanted.notes,
        )
        asks = bool(wish or offered) and self._asks_when(normal, asked)
        read = unworded(
            replace(draft, intents=intents, answer=answer, notes=notes, asks_when=asks), normal.words, asked
        )
        return without_fault(still_stands(read, asked, normal.words, self.hazard_codes), asked, about)

    def _leant(self, stated: Statements, heard: Heard, hits: Sequence[Hit], marks: Marks) -> Statements:
        told = without_the_faults_own(by_halves(of_its_half(self._leaner.leant(stated, heard))))
        return told_of_the_asked(told, hits, heard.asked, marks, heard.normal)

    def _asks_when(self, normal: Normal, asked: Asked | None) -> bool:
        """Whether a text asks, and what it says besides its question names no time and takes no window."""
        asking = questions(normal.words)
        if not asking.marked:
            return False
        besides = said_besides(normal.text, normal.words, asking)
        if not besides:
            return True
        told = self.read(besides, asked=asked)
        return told.wish is None and (told.answer is None or told.answer.kind not in ("choice", "either"))

    def read_together(
        self,
        texts: Sequence[str],
        *,
        media: int = 0,
        asked: Asked | None = None,
        about: str | None = None,
        this_year: int | None = None,
    ) -> Reading:
        """What several texts say together. Hazards are sought in each and across; no denial crosses texts."""
        whole = self.read("\n".join(texts), media=media, asked=asked, about=about, this_year=this_year)
        if len(texts) < 2:
            return whole
        raised = {h.code: h for h in whole.hazards}
        for text in texts:
            for hazard in self.hazards(text):
                # The words of a part are weighed only where all of them together tell nothing: a part says half.
                if hazard.rule != TOLD_TEXTS or not whole.hazards:
                    raised.setdefault(hazard.code, hazard)
        denied = tuple(h for h in whole.denied_hazards if h.code not in raised)
        consents = [c for c in map(self.consent, texts) if c is not None]
        intents = whole.intents
        if consents:
            first = {"out": "opt_out", "in": "opt_in", "help": "help_word"}[consents[-1]]
            intents = (first, *(i for i in intents if i != first))
        return replace(whole, hazards=tuple(raised.values()), denied_hazards=denied, intents=intents)

    def hazards(self, text: str) -> tuple[HazardFound, ...]:
        """The hazards of *text* alone: the quick screen on arrival."""
        typed = self._normaliser.words(text[:MOST_SIGNS])
        normal, _ = self._corrector.corrected(typed)
        hits = self._seeker.hits(normal, self._teller.language(text, typed.words))
        kinds = by_kind(hits)
        marks = gather_marks(kinds["mark"], normal.words)
        clauses = cut_clauses(normal.words, marks, frozenset(h.start for h in kinds["name"]))
        return self._screen(normal, typed, marks, clauses).raised

    def _screen(
        self, normal: Normal, typed: Normal, marks: Marks, clauses: Sequence[Clause], asked: Asked | None = None
    ) -> Screened:
        """The dangers that phrases tell; where they tell none, what such words mostly tell."""
        screened = screen(self._lexicon, normal, typed.words, marks, clauses)
        if screened.raised:
            return screened
        opinion = danger_told(self._of_dangers, normal.words.keys().forms, self._danger_codes, screened.cleared)
        return alarmed(screened, opinion, normal, asked)

    def consent(self, text: str) -> Consent | None:
        """Whether *text* asks for no more texts (``out``), for texts again (``in``), for help, or none of it."""
        return consent_of(self._lexicon, self._normaliser.words(text[:MOST_SIGNS]).words, text)

    def _is_word(self, form: str) -> bool:
        return self._speller.knows(form) or self._speller.correct(form) is not None

    def _ordinary(self, form: str) -> bool:
        """Whether *form* is a word people and rules use, not one that is only known so as not to be mended."""
        return self._is_word(form) and not (form in self._only_traps and not self._speller.means(form))


@dataclass(frozen=True, slots=True)
class _Words:
    """A rulebook as far as it is read by: equal for editions that differ in weights alone."""

    key: str
    rulebook: Rulebook = field(compare=False)


def reader_for(rulebook: Rulebook) -> Reader:
    """The reader of *rulebook*, compiled once for all editions that hear the same words."""
    return _reader(_Words(rulebook.heard_as or rulebook.fingerprint, rulebook))


@lru_cache(maxsize=16)
def _reader(words: _Words) -> Reader:
    at_work = gc.isenabled()
    gc.disable()
    try:
        return Reader(words.rulebook)
    finally:
        if at_work:
            gc.enable()
