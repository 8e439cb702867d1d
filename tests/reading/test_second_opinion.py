"""What such words mostly tell, where no phrase of the rules is heard."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.reading.faults.stated import Statements
from service.reading.model import Found
from service.reading.opinion.belying import BELIED, BELIED_THOUGH_LONGER, WORDS_OF_A_PHRASE, unbelied
from service.reading.opinion.leaning import TOLD_TEXTS
from service.reading.opinion.second_opinion import NOTHING, Opinion, SecondOpinion, Taught
from service.reading.opinion.told_texts import taught_symptoms
from service.reading.reader import Reader
from service.rulebook.loading import load_rulebook
from tests.reading.score import RULES

TAUGHT = [Taught(*one) for one in [
    ("it will not drain at all", "no_drain"), ("water stays in the tub", "no_drain"), ("tub still full of water", "no_drain"),
    ("it screeches like an owl", "noise"), ("a loud screech from the drum", "noise"), ("humming and screeching", "noise"),
    ("can you come on friday", NOTHING), ("how much for a visit", NOTHING), ("thanks so much", NOTHING),
]]  # fmt: skip
CODES = ("no_drain", "noise")


@pytest.fixture(scope="module")
def opinions() -> SecondOpinion:
    """Taught once: the library alone takes longer to load than one generated case may."""
    return SecondOpinion(TAUGHT)


def test_it_says_what_such_words_were_told_of_and_by_which_words() -> None:
    opinion = SecondOpinion(TAUGHT).of(["the", "tub", "is", "still", "full", "of", "water"], CODES)
    assert opinion is not None
    assert opinion.code == "no_drain"
    assert opinion.share > opinion.shares[NOTHING]
    assert set(" ".join(opinion.because("no_drain")).split()) <= {"the", "tub", "still", "full", "water", "of"}


def test_what_tells_nothing_is_most_like_nothing() -> None:
    opinion = SecondOpinion(TAUGHT).of(["how", "much", "is", "a", "visit", "on", "friday"], CODES)
    assert opinion is not None
    assert opinion.shares[NOTHING] > opinion.share


def test_a_code_that_the_machine_cannot_have_has_no_share() -> None:
    only = SecondOpinion(TAUGHT).of(["the", "tub", "is", "still", "full", "of", "water"], ("noise",))
    assert only is not None
    assert only.code == "noise"
    assert set(only.shares) == set(only.margins) == {"noise", NOTHING}


def test_words_tell_one_thing_of_one_machine_and_another_of_another() -> None:
    lines = [
        ("it will not open", "door_fault", "washer"), ("open it will not", "door_fault", "washer"),
        ("it will not open", "jammed", "compactor"), ("open it will not", "jammed", "compactor"),
        ("can you come on friday", NOTHING, ""), ("how much is it", NOTHING, ""),
    ]  # fmt: skip
    taught = SecondOpinion([Taught(f"{text} {n} {m[:1]}", code, m) for text, code, m in lines for n in "ab"])
    told = {m: taught.of(["it", "will", "not", "open"], ("door_fault", "jammed"), m) for m in ("washer", "compactor")}
    assert {machine: opinion and opinion.code for machine, opinion in told.items()} == {
        "washer": "door_fault",
        "compactor": "jammed",
    }


@pytest.mark.parametrize("words", [[], ["tub"], ["never", "heard", "words"]])
def test_too_few_known_words_give_no_opinion(words: list[str]) -> None:
    assert SecondOpinion(TAUGHT).of(words, CODES) is None


def test_what_was_learned_is_kept_and_says_the_same(tmp_path: Path) -> None:
    words = ["the", "tub", "is", "still", "full", "of", "water"]
    fresh = SecondOpinion(TAUGHT).of(words, CODES)
    assert SecondOpinion(TAUGHT, tmp_path).of(words, CODES) == fresh
    (file,) = tmp_path.glob("*.npz")
    written = file.read_bytes()
    assert SecondOpinion(reversed(TAUGHT), tmp_path).of(words, CODES) == fresh, "the order of the texts teaches nothing"
    assert file.read_bytes() == written
    assert SecondOpinion(TAUGHT[:-1], tmp_path).of(words, CODES) != fresh, "other texts are learned from anew"


@pytest.mark.parametrize("damage", [b"", b"PK", None])
def test_a_kept_file_that_is_not_whole_is_passed_over(tmp_path: Path, damage: bytes | None) -> None:
    words = ["humming", "and", "screeching", "from", "the", "drum"]
    fresh = SecondOpinion(TAUGHT, tmp_path).of(words, CODES)
    (file,) = tmp_path.glob("*.npz")
    whole = file.read_bytes()
    spoiled = bytearray(whole)
    spoiled[len(whole) // 2] ^= 0xFF
    file.write_bytes(bytes(spoiled) if damage is None else damage)
    assert SecondOpinion(TAUGHT, tmp_path).of(words, CODES) == fresh
    assert file.read_bytes() == whole, "it is learned again and kept"


def test_a_folder_that_cannot_be_written_keeps_nobody_from_learning(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("no folder")
    assert SecondOpinion(TAUGHT, tmp_path / "file").of(["tub", "still", "full"], CODES) is not None


def test_pieces_tell_a_word_from_its_kin_and_are_said_of_the_word() -> None:
    lines = [
        ("there is smoke from the back", "smoke"), ("smoke comes out of it", "smoke"), ("so much smoke here", "smoke"),
        ("can you come on friday", NOTHING), ("how much for a visit", NOTHING), ("it comes back on friday", NOTHING),
    ]  # fmt: skip
    taught = [Taught(*one) for one in lines]
    words = ["it", "is", "smokey", "on", "the", "back"]
    whole, parted = (SecondOpinion(taught, in_pieces=p).of(words, ("smoke",)) for p in (False, True))
    assert whole is not None
    assert parted is not None
    assert parted.share > whole.share
    assert parted.because("smoke")[0] == "smokey"


def test_without_texts_there_is_no_opinion() -> None:
    empty = SecondOpinion(())
    assert empty.of(["water", "in", "the", "tub"], CODES) is None


@pytest.fixture(scope="module")
def by_pieces() -> SecondOpinion:
    return SecondOpinion(TAUGHT, in_pieces=True)


@given(st.lists(st.sampled_from(" ".join(one.text for one in TAUGHT).split()), max_size=12))
def test_what_is_remembered_of_words_changes_no_opinion(by_pieces: SecondOpinion, words: list[str]) -> None:
    again = by_pieces.of(words, CODES)
    assert again == by_pieces.of(words, CODES)
    by_pieces._remembered = by_pieces._nothing_yet()
    assert again == by_pieces.of(words, CODES)


@given(st.lists(st.sampled_from(" ".join(one.text for one in TAUGHT).split()), min_size=3, max_size=12))
def test_shares_add_up_to_one(opinions: SecondOpinion, words: list[str]) -> None:
    opinion = opinions.of(words, CODES)
    if opinion is not None:
        assert sum(opinion.shares.values()) == pytest.approx(1, abs=1e-9)


def test_a_fault_told_in_words_no_phrase_has_is_heard_and_explained(reader: Reader) -> None:
    text = "half of every tray is pale and half is charcoal from my wall oven"
    reading = reader.read(text)
    told = [s for s in reading.symptoms if s.rule == "told texts"]
    assert [s.code for s in told] == ["temp_off"]
    assert told[0].score < 0.75, "what no phrase told is never as sure as what one told"
    assert any(note.startswith("Most like what is told of temp_off of wall_oven") for note in reading.notes)


@pytest.mark.parametrize(
    ("text", "hint", "told"),
    [
        ("wine cooler says 55 but its really 65 in there", "not_cooling", ["temp_off"]),
    ],
)
def test_a_hint_that_the_words_as_a_whole_belie_is_not_taken(
    reader: Reader, text: str, hint: str, told: list[str]
) -> None:
    reading = reader.read(text)
    assert [s.code for s in reading.symptoms] == told
    assert any(note.startswith(f"Not taken as {hint} for") for note in reading.notes)


@given(st.floats(-2, 2), st.one_of(st.none(), st.floats(-2, 2)), st.integers(1, 6))
def test_only_a_hint_is_belied_and_only_by_the_whole_and_its_part(whole: float, part: float | None, words: int) -> None:
    def opinion(margin: float) -> Opinion:
        return Opinion("noise", {"noise": 0.0, "leak": margin, NOTHING: -1.0})

    found = Found("washer", "leak", 0.8, " ".join(["word"] * words), 0, 4, "washer.leak")
    stated = Statements((found,), (), (), (), ())
    kept = unbelied(opinion(whole), stated, (0, 40), lambda _: None if part is None else opinion(part))
    enough = BELIED if words < WORDS_OF_A_PHRASE else BELIED_THOUGH_LONGER
    against = whole + (whole if part is None else part)
    belied = words <= WORDS_OF_A_PHRASE and whole < 0 and against < enough
    assert bool(kept.symptoms) == (not belied)
    assert bool(kept.notes) == belied, "what is not taken is told"
    elsewhere = unbelied(opinion(whole), stated, (50, 90), lambda _: opinion(-2))
    assert elsewhere.symptoms == (found,), "what is said of another machine belies nothing of this one"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("the dishwasher leaves a puddle when its done and the glasses are gritty", {"leak", "poor_clean"}),
        ("dryer squeaks and takes two cycles to dry my towels", {"noise", "slow_dry"}),
        ("fridge hums loud and the light inside is out too", {"noise", "light_out"}),
        ("top load washer fills up but wont drain or spin", {"no_drain", "no_spin"}),
        ("la secadora no calienta ni gira", {"no_heat", "no_tumble"}),
    ],
)
def test_two_faults_told_in_a_few_words_each_are_both_kept(reader: Reader, text: str, told: set[str]) -> None:
    assert {s.code for s in reader.read(text).symptoms} == told


def test_a_second_fault_in_a_part_of_its_own_is_heard(reader: Reader) -> None:
    reading = reader.read("the washer wont drain and all the shirts have little brown streaks on them")
    assert {s.code for s in reading.symptoms} >= {"no_drain", "damages_load"}


@pytest.mark.parametrize(
    "text",
    [
        "the washer wont drain and if all the shirts have little brown streaks on them i will call again",
        "the washer wont drain and last year all the shirts had little brown streaks on them",
        "the washer wont drain and my sisters washer leaves little brown streaks on all the shirts",
    ],
)
def test_a_part_that_is_supposed_over_or_somebody_elses_tells_nothing(reader: Reader, text: str) -> None:
    assert [s.code for s in reader.read(text).symptoms if s.rule == TOLD_TEXTS] == []


@pytest.mark.parametrize("text", ["", " ", "...", "😀", "and", "ok,", "?!"])
def test_a_text_of_no_words_is_read_with_a_machine_under_discussion(reader: Reader, text: str) -> None:
    assert reader.read(text, about="dishwasher").symptoms == ()


@pytest.mark.parametrize("text", ["my washer is green", "mi lavadora es blanca y grande", "the washer has a sticker"])
def test_a_few_words_that_no_phrase_has_tell_nothing(reader: Reader, text: str) -> None:
    assert reader.read(text).symptoms == ()


@pytest.mark.parametrize(
    ("text", "about"),
    [
        ("used to drain slowly", "dishwasher"),
        ("my neighbor's leaks all over", "dishwasher"),
        ("no trouble draining", "dishwasher"),
        ("does it leak?", "dishwasher"),
        ("ok thanks, see you then", "washer"),
        ("what do you charge to come out", "washer"),
    ],
)
def test_it_has_no_say_where_a_phrase_was_heard_or_nothing_is_told(reader: Reader, text: str, about: str) -> None:
    assert [s.code for s in reader.read(text, about=about).symptoms] == []


def test_everyday_words_alone_raise_no_danger(reader: Reader) -> None:
    assert reader.hazards("called him, he forgot it. works now") == ()


def test_texts_told_teach_their_symptom(reader: Reader) -> None:
    """Each text of the rules, taken by itself, is told of the symptom it stands under more than of most others."""
    rulebook = load_rulebook(RULES, "demo")
    taught = SecondOpinion(taught_symptoms(rulebook))
    right = every = 0
    for appliance in rulebook.appliances.values():
        codes = tuple(sorted(appliance.symptoms))
        for symptom, texts in appliance.told.items():
            for text in texts:
                words = [word.form for word in reader.hearer.normaliser.words(text).words]
                opinion = taught.of(words, codes)
                if opinion is not None:
                    every += 1
                    right += opinion.code == symptom
    assert every > 1000
    assert right / every > 0.7
