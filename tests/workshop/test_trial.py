"""Past turns on edited rules: what is shown, that nothing is sent or changed, and that an export holds no person."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta
from functools import partial
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from sqlalchemy import select, update

from service.app import build_deps
from service.cli import main
from service.edge.deps import Deps
from service.edge.exchange import receive, rest_over
from service.edge.inbound import Inbound
from service.rulebook.model import Rulebook
from service.settings import Settings
from service.storage.engine import open_engine, reading, writing
from service.storage.every_table import metadata
from service.storage.shops import edition_source
from service.storage.tables import turns
from service.storage.turns import last_turns
from service.workshop.trial.past import NotATurn, PastTurn, as_lines, from_lines, stored
from service.workshop.trial.redacting import gathered
from service.workshop.trial.side_by_side import report
from service.workshop.trial.trying import summary, trial
from tests.conftest import RULES, Clock

TALKS = {
    "+15055550142": (
        "my dishwasher is not draining",
        "no",
        "cleaned the filter already, no change. 87111",
        "just send someone",
        "covers the floor",
        "all at once",
        "418 Cholla Wren Ln NE 87111",
        "any day",
        "1",
        "Maria Lujan",
        "gate code 0420, call my husband at 505 555 0177, write to mlujan@post.example",
    ),
    "+15055550143": ("dryer is squeaking real bad", "no"),
    "+15055550144": ("la lavadora no exprime", "soy Ximena Barela, no se"),
}
MANY = sum(map(len, TALKS.values()))
SECRETS = ("cholla", "wren", "418", "maria", "lujan", "0420", "555 0177", "ximena", "barela", "mlujan", "5055550142")


@pytest.fixture(scope="module")
def deps(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Deps]:
    """A demo shop that has had three conversations."""
    clock = Clock()
    folder = tmp_path_factory.mktemp("trial")
    settings = Settings(database=f"sqlite:///{folder / 'line.sqlite3'}", secret="s" * 40, rules=RULES, shops=("demo",))
    engine = open_engine(settings.database)
    metadata.create_all(engine)
    deps = build_deps(settings, engine=engine, clock=clock)
    for number, texts in TALKS.items():
        for text in texts:
            now = clock.forward(minutes=2)
            identity = f"{number}-{now.timestamp()}"
            received = receive(deps, Inbound("demo", "loopback", number, "+15055550100", text, (), identity, now))
            clock.moment += timedelta(seconds=20)
            rest_over(deps, "demo", received.thread)
    yield deps
    engine.dispose()


def past_turns(deps: Deps) -> list[PastTurn]:
    with reading(deps.engine) as connection:
        return [stored(row) for row in last_turns(connection, "demo", 200)]


def with_level(rulebook: Rulebook, appliance: str, symptom: str, level: str) -> Rulebook:
    """Edited rules: one symptom of another level."""
    rules = rulebook.appliances[appliance]
    changed = rules.symptoms[symptom].model_copy(update={"level": level})
    edited = rules.model_copy(update={"symptoms": {**rules.symptoms, symptom: changed}})
    return replace(rulebook, appliances={**rulebook.appliances, appliance: edited}, fingerprint=f"{level}{symptom}")


def with_sentence(rulebook: Rulebook, id: str, said: str) -> Rulebook:
    wording = {**rulebook.wording, "en": {**rulebook.wording["en"], id: said}}
    return replace(rulebook, wording=wording, fingerprint=f"{id}{said}")


def test_the_rules_of_then_decide_the_same_again(deps: Deps) -> None:
    tried = list(trial(past_turns(deps), deps.rulebook_of("demo")))

    assert len(tried) == MANY
    assert summary(tried) == f"{MANY} turns tried, 0 otherwise. Nothing was sent."
    assert report(tried).exit_code == 0


def test_another_level_is_shown_side_by_side_and_counted(deps: Deps) -> None:
    edited = with_level(deps.rulebook_of("demo"), "dryer", "noise", "today")

    shown = report(list(trial(past_turns(deps), edited)), width=81)

    assert shown.exit_code == 0
    assert "dryer is squeaking real bad" in shown.text
    assert f"  {'then':<38} | with these rules\n  t1\n  {'routine':<38} | today" in shown.text
    assert shown.text.endswith(f"{MANY} turns tried, 2 otherwise. Nothing was sent.\n  2 with another triage level")


def test_another_sentence_is_another_reply(deps: Deps) -> None:
    edited = with_sentence(
        deps.rulebook_of("demo"), "intro", "Tarnwick. Automatic texts; a person reads them too. {phone}"
    )
    first = past_turns(deps)[0]

    (one,) = trial([first], edited)

    (difference,) = one.differences
    assert (difference.kind, difference.about) == ("reply", "reply 1")
    assert difference.now.startswith("Tarnwick. Automatic texts")
    assert first.step is not None
    assert difference.was == first.step.replies[0].text


def test_a_trial_changes_no_row_and_sends_nothing(deps: Deps) -> None:
    def everything() -> dict[str, list[Any]]:
        with reading(deps.engine) as connection:
            return {
                name: [tuple(row) for row in connection.execute(select(table))]
                for name, table in metadata.tables.items()
            }

    before = everything()
    list(trial(past_turns(deps)[-4:], with_level(deps.rulebook_of("demo"), "washer", "no_spin", "today")))
    assert everything() == before


def test_what_the_program_itself_decides_otherwise_is_told_apart(deps: Deps) -> None:
    first = past_turns(deps)[0]
    assert first.step is not None
    other = first.step.model_copy(update={"replies": (first.step.replies[0].model_copy(update={"text": "Of old."}),)})

    with reading(deps.engine) as connection:
        (one,) = trial([first.model_copy(update={"step": other})], deps.rulebook_of("demo"),
                       partial(edition_source, connection, "demo"))  # fmt: skip

    assert one.program
    assert "1 of them differ on the rules of then too: the program has changed since." in summary([one])


def test_a_turn_that_failed_then_or_lacks_its_diary_is_passed_over(deps: Deps) -> None:
    past, rulebook = past_turns(deps), deps.rulebook_of("demo")

    (failed,) = trial([past[0].model_copy(update={"step": None})], rulebook)
    blind = list(trial([turn.model_copy(update={"diary": None}) for turn in past if turn.diary], rulebook))

    assert failed.passed_over == "nothing was decided then that can be compared with"
    assert "it would offer a visit now, and the diary of then was not kept" in [one.passed_over for one in blind]
    assert "passed over." in summary(blind)


def test_rules_on_which_a_turn_cannot_be_taken_fail_the_trial(deps: Deps) -> None:
    broken = with_sentence(deps.rulebook_of("demo"), "intro", "Hello {nobody}.")

    shown = report(list(trial(past_turns(deps)[:1], broken)))

    assert shown.exit_code == 1
    assert "would fail: WordingError" in shown.text
    assert "1 would fail: mend this before these rules are used." in shown.text


def test_an_export_holds_no_person_and_tries_the_same(deps: Deps) -> None:
    rulebook = deps.rulebook_of("demo")
    found = gathered(past_turns(deps), rulebook)
    text = "\n".join(as_lines(found.turns))

    # Editions and code are named by digests, and any digest may happen to hold the digits of a house.
    told = re.sub(r"\b[0-9a-f]{12,}\b", "", text.casefold())
    assert [word for word in SECRETS if word in told] == []
    assert found.left_out <= 1
    assert {turn.thread for turn in found.turns} == {"t1", "t2", "t3"}
    again = list(from_lines(text.splitlines(), "turns.jsonl"))
    assert again == list(found.turns)
    assert not any(one.differs for one in trial(again, rulebook))
    edited = with_level(rulebook, "dryer", "noise", "today")
    assert sum(one.differs for one in trial(again, edited)) == 2


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("{", "turns.jsonl, line 2: this is not JSON"),
        ('{"id": "1"}', "turns.jsonl, line 2, thread: Field required"),
        (json.dumps({"form": 9, "id": "1", "thread": "t", "number": 1, "at": "2026-12-01T17:00:00Z", "state_before": {},
                     "events": [], "edition": "e", "autonomy": "draft", "code_version": "1"}),
         "turns.jsonl, line 2: form 9 is not known here."),
    ],
)  # fmt: skip
def test_a_file_that_holds_something_else_is_told_by_its_line(line: str, told: str) -> None:
    with pytest.raises(NotATurn, match=told):
        list(from_lines(["", line], "turns.jsonl"))


def test_the_commands_gather_and_try(deps: Deps, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PLAINFAULT_DATABASE", str(deps.engine.url))
    monkeypatch.setenv("PLAINFAULT_SECRET", "s" * 40)
    monkeypatch.setenv("PLAINFAULT_RULES", str(RULES))
    file = tmp_path / "turns.jsonl"

    written = CliRunner().invoke(main, ["workshop", "gather", "--last", "3", str(file)])
    tried = CliRunner().invoke(main, ["workshop", "trial", "--rules", str(RULES), "--from", str(file)])
    stored_ones = CliRunner().invoke(main, ["workshop", "trial", "--rules", str(RULES)])

    assert written.exit_code == tried.exit_code == stored_ones.exit_code == 0, written.output + tried.output
    assert len(file.read_text().splitlines()) + ("1 left out" in written.output) == 3
    assert tried.output.endswith("0 otherwise. Nothing was sent.\n")
    assert stored_ones.output == f"{MANY} turns tried, 0 otherwise. Nothing was sent.\n"


def test_who_held_the_thread_is_known_again(deps: Deps) -> None:
    past = past_turns(deps)[0]
    held = next(iter(trial([past.model_copy(update={"held": True})], deps.rulebook_of("demo"))))

    assert held.differences[0].now == "nothing"
    assert past.step is not None
    step = past.step.model_dump(mode="json")
    step["reasons"] = [{"what": "held", "words": "A person holds the thread: heard, not answered."}]
    with writing(deps.engine) as connection:
        connection.execute(update(turns).where(turns.c.id == past.id).values(step=step))
    assert past_turns(deps)[0].held
