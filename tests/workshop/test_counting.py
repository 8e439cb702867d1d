"""The table of what the rules hold, and the place it has in the guide."""

from __future__ import annotations

from pathlib import Path

from service.rulebook.folder import read_folder
from service.workshop.counting import BEGIN, COLUMNS, END, counts, with_counts, write_counts
from tests.conftest import RULES
from tests.rulebook.sound import write

TABLE = """\
| appliance | symptoms | phrases en | phrases es | examples | observations | causes | owner checks | tests | parts |
| --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |
| dishwasher | 3 | 7 | 5 | 5 | 3 | 2 | 2 | 2 | 1 |"""


def test_everything_of_an_appliance_is_counted(tmp_path: Path) -> None:
    rules = write(tmp_path)
    (rules / "README.md").write_text(f"# Rules\n\n{BEGIN}\nold\n{END}\n\nMore.\n")

    assert write_counts(rules) == (TABLE, True)
    assert (rules / "README.md").read_text() == f"# Rules\n\n{BEGIN}\n\n{TABLE}\n\n{END}\n\nMore.\n"
    assert write_counts(rules) == (TABLE, False)


def test_a_guide_without_the_marks_is_left_alone() -> None:
    assert with_counts("# Rules\n", (("dishwasher", (1,) * len(COLUMNS)),)) == "# Rules\n"


def test_the_guide_has_the_table_with_a_row_for_each_appliance_it_knows() -> None:
    """Not that every figure is of today: `plainfault workshop count` brings those into step."""
    guide = (RULES / "README.md").read_text("utf-8")
    inside = guide.partition(BEGIN)[2].partition(END)[0]
    rows = [line.split("|")[1].strip() for line in inside.splitlines() if line.startswith("|")][2:]

    assert f"| appliance | {' | '.join(COLUMNS)} |" in inside
    assert set(rows) - {"together"} <= {name for name, _ in counts(read_folder(RULES, []))}
    assert "together" in rows
