"""The pages' colours against WCAG 2.2: the formula by the published pairs (W9, W-B), then every pair the pages use (W5, W6)."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

HOUSE = (Path(__file__).parent.parent.parent / "service/pages/static/house.css").read_text(encoding="utf-8")
TEXT = [
    (ink, ground)
    for ink in ("ink", "soft", "green", "red", "amber", "blue")
    for ground in ("paper", "sheet", "mine", "theirs")
] + [
    ("green-ink", "green"), ("red", "red-soft"), ("amber", "amber-soft"), ("blue", "blue-soft"), ("ink", "red-soft"),
    ("ink", "amber-soft"), ("ink", "blue-soft"), ("ink", "green-soft"), ("soft", "green-soft"), ("soft", "amber-soft"),
]  # fmt: skip
SHAPES = [
    ("edge", "sheet"),
    ("edge", "paper"),
    ("focus", "sheet"),
    ("focus", "paper"),
    ("fill", "ground"),
    ("green", "paper"),
]


def luminance(colour: str) -> float:
    """Source W9."""
    channels = (int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5))
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def ratio(one: str, other: str) -> float:
    """Source W9."""
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def schemes() -> dict[str, dict[str, str]]:
    """The named colours of the light and of the dark scheme."""
    light, dark = HOUSE.split("@media (prefers-color-scheme: dark)", 1)
    named = r"--([a-z-]+): (#[0-9a-f]{6})"
    return {"light": dict(re.findall(named, light)), "dark": dict(re.findall(named, dark))}


@pytest.mark.parametrize(
    ("colour", "expected"),
    [
        ("#000000", 21.0), ("#767676", 4.5422), ("#777777", 4.4781), ("#949494", 3.0335), ("#959595", 2.9953),
        ("#ff0000", 3.9985), ("#b00020", 7.325),
    ],
)  # fmt: skip
def test_the_formula_gives_the_published_ratios(colour: str, expected: float) -> None:
    """Source W-B, on white."""
    assert ratio(colour, "#ffffff") == pytest.approx(expected, abs=0.001)


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize(("ink", "ground"), TEXT)
def test_every_text_colour_can_be_read_on_every_ground_it_stands_on(scheme: str, ink: str, ground: str) -> None:
    """Source W5: 4.5 to 1."""
    colours = schemes()[scheme]
    assert ratio(colours[ink], colours[ground]) >= 4.5


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize(("shape", "ground"), SHAPES)
def test_every_border_bar_and_focus_ring_can_be_seen(scheme: str, shape: str, ground: str) -> None:
    """Source W6: 3 to 1."""
    colours = schemes()[scheme]
    assert ratio(colours[shape], colours[ground]) >= 3
