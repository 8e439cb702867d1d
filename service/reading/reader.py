"""The reader: one text in the light of what was asked, to a Reading. Compiled once per rulebook, then pure and fast."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from service.reading.aims.answering import beside_the_answer
from service.reading.aims.arranging import with_the_time
from service.reading.aims.called_off import without_what_it_was_not
from service.reading.aims.consent import Consent
from service.reading.aims.intents import heard_intents, intents_of
from service.reading.aims.taken_back import with_taken_back
from service.reading.aims.telling import (
    is_hazards_own,
    listed_appliances,
    outside_names,
    reasons,
    still_there,
    told_beside,
    urgencies,
)
from service.reading.aims.unworded import unworded, with_a_hail
from service.reading.aims.wanting import Wanted, Wanting
from service.reading.aims.wished import keep_wish, without_no_wish
from service.reading.dangers.danger_answers import still_stands
from service.reading.dangers.of_which import placed
from service.reading.details.attempts import LISTS, Attempts
from service.reading.details.facts import FactFinder
from service.reading.details.handlings import HANDLINGS, Handlings
from service.reading.details.names import Namer
from service.reading.details.warranty_told import with_warranty_told
from service.reading.faults.asked_about import told_of_the_asked
from service.reading.faults.beside import without_the_faults_own
from service.reading.faults.bystanders import spoken_of
from service.reading.faults.cleared import cleared
from service.reading.faults.completing import comes_up_in, completed, of_its_half
from service.reading.faults.faultless import without_fault
from service.reading.faults.stated import Statements
from service.reading.faults.symptoms import Judge
from service.reading.faults.yellow_flames import FAULT as FLAME
from service.reading.faults.yellow_flames import with_wrong_colour
from service.reading.hearing import Hearer, Said
from service.reading.machines.brands import BrandFinder, brand_spellings
from service.reading.machines.mentions import UNKNOWN
from service.reading.model import Asked, HazardFound, Reading, Wish
from service.reading.opinion import told_texts
from service.reading.opinion.denying import Denier
from service.reading.opinion.halves import by_halves
from service.reading.opinion.inferring import Inferring, told_of
from service.reading.opinion.leaning import TOLD_TEXTS, Heard, Leaner
from service.reading.opinion.sealed import opinion_of
from service.reading.replies.replying import Replies
from service.reading.times.bare_times import answers_besides, says_only_when
from service.reading.times.time_said import wish_of
from service.reading.words.asking import questions, said_besides
from service.reading.words.lexicon import both_languages, compile_lexicon
from service.reading.words.marks import Marks
from service.reading.words.matching import Hit
from service.reading.words.normalising import Normal, fold
from service.rulebook.model import Rulebook


class Reader:
    """Reads texts by one rulebook. Get one with ``reader_for``; it holds no state between texts but of words known by sight."""

    def __init__(self, rulebook: Rulebook) -> None:
        self._lexicon = compile_lexicon(rulebook)
        words, shop = self._lexicon.words, rulebook.shop
        brands = brand_spellings(shop.brands.serves, shop.brands.refuses)
        done = {name: both_languages(words, name) for name in (*LISTS, *HANDLINGS)}
        tried = {fold(word) for name in LISTS for word in done[name]}
        everyday = frozenset(both_languages(words, "common") | both_languages(words, "traps") | tried)
        self.hazard_codes = frozenset(rulebook.vocabulary.hazards)
        self.symptom_codes = frozenset(rulebook.vocabulary.symptoms)
        self.hearer = Hearer(
            self._lexicon,
            everyday,
            frozenset(part for brand in brands for part in brand.split()),
            opinion_of(rulebook, told_texts.taught_dangers, in_pieces=True),
            tuple(sorted(rulebook.dangers)),
            opinion_of(rulebook, told_texts.taught_consent, in_depth=True),
        )
        is_word, knows = self.hearer.is_word, self.hearer.knows
        given, family = both_languages(words, "given_names"), both_languages(words, "family_names")
        namer = Namer(is_word, knows, everyday, given, family)
        maker = BrandFinder(brands, is_word, knows, self.hearer.is_ordinary, given | family)
        self._facts = FactFinder(frozenset(shop.area), maker, namer, Attempts(done), Handlings(done))
        own_codes = {code: tuple(sorted(own)) for code, own in self._lexicon.codes.items()}
        self._with_flames = frozenset(a for a, codes in self._lexicon.codes.items() if FLAME in codes)
        of_symptoms = opinion_of(rulebook, told_texts.taught_symptoms, in_depth=True)
        self._leaner = Leaner(of_symptoms, own_codes, self._lexicon.over)
        of_denials = opinion_of(rulebook, told_texts.taught_denials, in_depth=True)
        self._denier = Denier(of_denials, of_symptoms, own_codes)
        self._symptom_order = {code: number for number, code in enumerate(rulebook.vocabulary.symptoms)}
        self._intents = frozenset(rulebook.vocabulary.intents)
        self._replies = Replies(rulebook)
        wants = opinion_of(rulebook, told_texts.taught_intents)
        self._wanting = Wanting(wants, sorted(rulebook.intents_told))
        of_machines = opinion_of(rulebook, told_texts.taught_machines, in_depth=True)
        self._inferring = Inferring(of_machines, tuple(sorted(rulebook.appliances)), told_texts.name_words(rulebook))

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
        said = self.hearer.hear(text, asked, about)
        read = self._read(said, media, asked, this_year)
        machine = None if said.about or asked or said.consent else self._inferring.of(read, said.normal.words)
        if machine is None:
            return read
        again = self._read(self.hearer.hear(text, asked, machine), media, asked, this_year)
        return told_of(machine, again) if any(f.appliance == machine for f in again.symptoms) else read

    def _read(self, said: Said, media: int, asked: Asked | None, this_year: int | None) -> Reading:
        told = self._facts.facts(
            said.normal, said.kinds["talk"], said.polarity, said.mentions, asked, this_year, said.screened
        )
        facts, offered = told.stated, asked is not None and asked.kind == "offer"
        wish = wish_of(said.normal, said.kinds["talk"], facts, offered=offered) if said.consent is None else None
        wanted = self._wanted(said, facts)
        stated = self._stated(said, facts, wanted)
        alone = says_only_when(said.normal.words, wish, asked)
        if alone:
            facts.pop("name", None)
        wish = keep_wish(wish, facts, asked, wanted.intents, said.normal, alone=alone, complains=bool(stated.symptoms))
        draft = self._draft(said, stated, wanted, facts, wish)
        in_vain = still_there(said.kinds["talk"], told, asked, draft, said.normal.words)
        if in_vain is not None:
            wanted = wanted.with_wording("not_fixed", in_vain)
            draft = replace(draft, intents=wanted.intents)
        return self._in_the_light_of(said, draft, wanted, media, alone=alone)

    def _wanted(self, said: Said, facts: Mapping[str, object]) -> Wanted:
        """What the sender wants, as far as wordings or the words as a whole tell."""
        wanted = Wanted(
            heard_intents(said.kinds["talk"], self._intents, said.normal, said.polarity, facts.get("address"))
        )
        return (
            wanted if said.consent is not None else self._wanting.weighed(wanted.worded, said.normal.words, said.asked)
        )

    def _stated(self, said: Said, facts: Mapping[str, object], wanted: Wanted) -> Statements:
        """What is said to be wrong, or not wrong, with which machine."""
        normal, consent, screened = said.normal, said.consent, said.screened
        judge = Judge(self._lexicon, normal, said.polarity, said.mentions, self._symptom_order)
        stated = judge.statements(said.hits, lambda hit: consent is not None or is_hazards_own(hit, screened))
        stated = outside_names(stated, (facts.get("address"), facts.get("name"), facts.get("brand")), normal.text)
        stated = completed(
            stated,
            said.mentions,
            facts,
            wanted.worded,
            said.asked,
            normal,
            dangers=screened.codes,
            cleared=(*screened.cleared, *screened.explained),
        )
        if consent is not None:
            return stated
        beside = told_beside(said.kinds["talk"], said.marks)
        dangers = (screened.raised, screened.cleared)
        heard = Heard(normal, said.clauses, said.mentions, said.asked, wanted.intents, beside, *dangers)
        return comes_up_in(self._leant(stated, heard, said.hits, said.marks), normal, wanted.intents)

    def _draft(
        self, said: Said, stated: Statements, wanted: Wanted, facts: Mapping[str, object], wish: Wish | None
    ) -> Reading:
        """The reading as far as it is the same whatever was asked."""
        words, mentions, screened = said.normal.words, said.mentions, said.screened
        spoken = spoken_of(
            mentions,
            stated,
            words,
            said.marks,
            said.clauses,
            said.kinds["name"],
            wanted.intents,
            bool(screened.raised),
        )
        machines = listed_appliances(spoken, stated, said.about, said.asked, self.hazard_codes)
        return Reading(
            text=said.text,
            language=said.language,
            intents=wanted.intents,
            appliances=machines,
            symptoms=stated.symptoms,
            denied=stated.denied,
            hazards=placed(screened.raised, said.mentions, said.normal.words),
            doubted_hazards=screened.doubted,
            denied_hazards=screened.denied,
            urgency=urgencies(said.kinds["urgency"], said.polarity, screened, machines),
            facts=facts,
            observations=stated.observations,
            theories=stated.theories,
            wish=wish,
            corrects=bool(said.marks.at("corrections")) or mentions.name_another(words),
            notes=stated.notes,
            may_want_no_more=said.may_want_no_more,
        )

    def _in_the_light_of(self, said: Said, draft: Reading, wanted: Wanted, media: int, *, alone: bool) -> Reading:
        """*draft* with what it answers to what was asked, what is wanted in that light, and why it was read so."""
        asked, normal, consent, wish = said.asked, said.normal, said.consent, draft.wish
        offered = asked is not None and asked.kind == "offer"
        answer = self._replies.answer(asked, normal.words, said.kinds["talk"], draft, media, self.hazard_codes)
        if alone and asked is not None and not answers_besides(normal.words, asked):
            answer = None
        facts = without_no_wish(draft.facts, wanted.intents, answer if offered else None, wish)
        facts = with_warranty_told(facts, asked, answer, normal.words)
        draft = without_what_it_was_not(replace(draft, facts=facts), wanted.worded, normal.words, said.mentions.found)
        wants = with_the_time(wanted, draft, normal, asked)
        wants = beside_the_answer(wants, wanted.worded, answer, asked, normal.words, self.hazard_codes)
        readable = bool(media or facts or wish) or self.hearer.is_readable(said)
        intents = intents_of(wants, consent, draft, answer, asked, readable=readable)
        notes = (
            *said.spelled,
            *said.screened.notes,
            *draft.notes,
            *reasons(wanted.worded, normal, answer, consent),
            *wanted.notes,
        )
        asks = bool(wish or offered) and self._asks_when(normal, asked)
        read = unworded(
            replace(draft, intents=intents, answer=answer, notes=notes, asks_when=asks),
            normal.words,
            asked,
        )
        read = without_fault(still_stands(read, asked, normal.words, self.hazard_codes), asked, said.about)
        read = with_a_hail(read, normal.words)
        return with_taken_back(read, said.kinds["name"], normal.words, said.clauses)

    def _leant(self, stated: Statements, heard: Heard, hits: Sequence[Hit], marks: Marks) -> Statements:
        leant = self._denier.denied(self._leaner.leant(stated, heard), heard, hits)
        told = cleared(by_halves(of_its_half(leant), heard.normal.words), heard.mentions, heard.normal)
        told = told_of_the_asked(without_the_faults_own(told), hits, heard.asked, marks, heard.normal)
        return with_wrong_colour(told, hits, heard.normal, heard.mentions, self._with_flames)

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
            for hazard in self.hearer.screened(text).raised:
                # The words of a part are weighed only where all of them together tell nothing: a part says half.
                if hazard.rule != TOLD_TEXTS or not whole.hazards:
                    raised.setdefault(hazard.code, hazard)
        denied = tuple(h for h in whole.denied_hazards if h.code not in raised)
        consents = [c for c in map(self.consent, texts) if c is not None]
        intents = whole.intents
        if consents:
            first = {"out": "opt_out", "in": "opt_in", "help": "help_word"}[consents[-1]]
            intents = (first, *(i for i in intents if i != first))
        doubted = () if raised else whole.doubted_hazards
        return replace(
            whole, hazards=tuple(raised.values()), doubted_hazards=doubted, denied_hazards=denied, intents=intents
        )

    def hazards(self, text: str) -> tuple[HazardFound, ...]:
        """The hazards of *text* alone, those that are to be asked about among them: the quick screen on arrival."""
        screened = self.hearer.screened(text)
        return (*screened.raised, *screened.doubted)

    def consent(self, text: str) -> Consent | None:
        """Whether *text* asks for no more texts (``out``), for texts again (``in``), for help, or none of it."""
        return self.hearer.consent(text)

    def is_cut(self, form: str) -> bool:
        """Whether *form* is no word, and is read as several: a run-on, or a name that looks like one."""
        return self.hearer.is_cut(form)
