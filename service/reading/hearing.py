"""What stands in one text before anything is made of it: words mended, phrases found, clauses, dangers, machines."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from service.reading.aims.consent import Consent
from service.reading.aims.telling import event_places, implied_names
from service.reading.aims.texting import OfTexting
from service.reading.dangers.alarming import alarmed, danger_told
from service.reading.dangers.bare_smells import with_bare_smells
from service.reading.dangers.doubting import doubted
from service.reading.dangers.hazards import Screened, screen
from service.reading.dangers.in_a_name import without_names
from service.reading.dangers.named_first import with_named_first
from service.reading.dangers.no_denials import without_no_denials
from service.reading.faults.polarity import Polarity
from service.reading.machines.mentions import Mentions, find_mentions
from service.reading.machines.seeking import Seeker
from service.reading.model import Asked, Language
from service.reading.opinion.second_opinion import SecondOpinion
from service.reading.replies.outright import is_another_answer
from service.reading.words.clauses import Clause, cut_clauses
from service.reading.words.correcting import Corrector
from service.reading.words.language import LanguageTeller, is_readable
from service.reading.words.lexicon import LANGUAGES, Lexicon, both_languages, known_stems, pairs, spelling_targets
from service.reading.words.marks import Marks, gather_marks
from service.reading.words.matching import Hit, by_kind
from service.reading.words.normalising import Normal, Normaliser
from service.reading.words.spelling import Speller

MOST_SIGNS = 4000
"""Signs of a text that are read; carriers deliver at most 1,600 in one message."""

LATELY = 32
"""So many texts are remembered as words, and with what they say of texting itself."""


@dataclass(frozen=True, slots=True)
class Said:
    """
    What stands in one text. spelled: what was mended, in words. hits: the phrases found; kinds: the same by kind.
    asked, about: what stood open, and the appliance under discussion.
    """

    text: str
    normal: Normal
    spelled: Sequence[str]
    language: Language
    hits: Sequence[Hit]
    kinds: Mapping[str, Sequence[Hit]]
    marks: Marks
    clauses: Sequence[Clause]
    polarity: Polarity
    screened: Screened
    consent: Consent | None
    may_want_no_more: bool
    mentions: Mentions
    asked: Asked | None
    about: str | None


class Hearer:
    """
    Hears texts by one *lexicon*. everyday: words that are right as they are. brands: words of makers' names. of_dangers: what
    the words of a text as a whole tell of the dangers *codes*; of_texting: what they tell of texting itself.
    """

    def __init__(
        self,
        lexicon: Lexicon,
        everyday: frozenset[str],
        brands: frozenset[str],
        of_dangers: SecondOpinion,
        codes: tuple[str, ...],
        of_texting: SecondOpinion,
    ) -> None:
        self._lexicon, self._of_dangers, self._danger_codes = lexicon, of_dangers, codes
        words = lexicon.words
        shorthand = {**pairs(both_languages(words, "shorthand"))}
        self._only_traps = both_languages(words, "traps") - both_languages(words, "common")
        self._speller = Speller(everyday | set(shorthand) | brands, spelling_targets(lexicon), known_stems(lexicon))
        self._corrector = Corrector(self._speller, everyday)
        self.normaliser = Normaliser(shorthand, pairs(both_languages(words, "emoji")), self._speller.knows)
        trade = {language: frozenset(lexicon.forms(language)) for language in LANGUAGES}
        # A text is screened when it arrives, and looked at for consent and read in its turn. What remembers it must not lead
        # back here: a reader in a circle, out of the collector's sight, would never be gone.
        self._typed = lru_cache(maxsize=LATELY)(self.normaliser.words)
        self._consent = lru_cache(maxsize=LATELY)(OfTexting(lexicon, self._typed, of_texting).said)
        self._teller = LanguageTeller(words.get("common", {}), trade, frozenset(both_languages(words, "borrowed")))
        self._seeker = Seeker(lexicon, self._teller)

    def hear(self, text: str, asked: Asked | None, about: str | None) -> Said:
        """What stands in *text*. asked: what stands open. about: the appliance under discussion."""
        typed = self._typed(text[:MOST_SIGNS])
        normal, spelled = self._corrector.corrected(typed)
        language = self._teller.language(text, typed.words)
        hits = self._seeker.hits(normal, language)
        kinds, hits = by_kind(hits), [hit for hit in hits if not is_another_answer(hit, asked)]
        marks = gather_marks(kinds["mark"], normal.words)
        named = frozenset(h.start for h in kinds["name"])
        clauses = cut_clauses(normal.words, marks, named)
        polarity = Polarity.of(normal.words, marks, clauses, kinds["symptom"], named)
        screened = self._screen(normal, typed, marks, clauses, asked)
        consent, perhaps = self._consent(text[:MOST_SIGNS])
        hits += self._seeker.seen_through(hits, kinds["name"], normal, language)
        hits += self._seeker.negated_inside(normal, language)
        implied = [] if about else implied_names(hits)
        mentions = find_mentions(kinds["name"], normal.words, marks, implied, event_places(kinds["talk"]), about)
        return Said(
            text,
            normal,
            spelled,
            language,
            hits,
            kinds,
            marks,
            clauses,
            polarity,
            screened,
            consent,
            perhaps,
            mentions,
            asked,
            about,
        )

    def screened(self, text: str) -> Screened:
        """The dangers of *text* alone: the quick screen on arrival."""
        typed = self._typed(text[:MOST_SIGNS])
        normal, _ = self._corrector.corrected(typed)
        hits = self._seeker.hits(normal, self._teller.language(text, typed.words))
        kinds = by_kind(hits)
        marks = gather_marks(kinds["mark"], normal.words)
        clauses = cut_clauses(normal.words, marks, frozenset(h.start for h in kinds["name"]))
        return self._screen(normal, typed, marks, clauses)

    def _screen(
        self, normal: Normal, typed: Normal, marks: Marks, clauses: Sequence[Clause], asked: Asked | None = None
    ) -> Screened:
        """The dangers that phrases tell; where they tell none, what such words mostly tell."""
        screened = without_names(screen(self._lexicon, normal, typed.words, marks, clauses), normal, asked)
        screened = with_named_first(without_no_denials(screened, normal, asked), normal)
        screened = with_bare_smells(screened, normal, asked)
        if screened.raised:
            return doubted(screened, self._of_dangers, normal.words, self._danger_codes, asked)
        opinion = danger_told(self._of_dangers, normal.words.keys().forms, self._danger_codes, screened.cleared)
        return alarmed(screened, opinion, normal, asked)

    def consent(self, text: str) -> Consent | None:
        """Whether *text* asks for no more texts (``out``), for texts again (``in``), for help, or none of it."""
        return self._consent(text[:MOST_SIGNS])[0]

    def is_word(self, form: str) -> bool:
        """Whether *form* is a word that is right, or stands for one."""
        return self._speller.knows(form) or self._speller.correct(form) is not None

    def is_cut(self, form: str) -> bool:
        """Whether *form* is no word, and is read as several: a run-on, or somebody's name that looks like one."""
        return len(self._speller.correct(form) or ()) > 1

    def is_ordinary(self, form: str) -> bool:
        """Whether *form* is a word people and rules use, not one that is only known so as not to be mended."""
        return self.is_word(form) and not (form in self._only_traps and not self._speller.means(form))

    def knows(self, form: str) -> bool:
        """Whether *form* is a word that is right as it is."""
        return self._speller.knows(form)

    def is_readable(self, said: Said) -> bool:
        """Whether the words of *said* are words at all, in the light of what was asked."""
        return is_readable(said.normal.words, self._speller.knows, said.language, said.asked)
