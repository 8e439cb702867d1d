"""Windows, moments and fees in words."""

from datetime import UTC, datetime

import pytest

from service.scheduling.words import day_words, fee_words, moment_words, window_words
from service.wording.segments import count
from tests.scheduling.shops import NOW, at, make_shop

SHOP = make_shop()


@pytest.mark.parametrize(
    ("day", "start", "end", "english", "spanish"),
    [
        ("2026-12-04", (13, 0), (15, 0), "Fri 4 Dec, 1 to 3 pm", "vie 4 dic, de 1 a 3 pm"),
        ("2026-12-03", (10, 0), (12, 0), "Thu 3 Dec, 10 am to 12 pm", "jue 3 dic, de 10 am a 12 pm"),
        ("2026-12-05", (8, 30), (10, 30), "Sat 5 Dec, 8:30 to 10:30 am", "sáb 5 dic, de 8:30 a 10:30 am"),
        ("2026-12-01", (13, 0), (15, 0), "today, Tue 1 Dec, 1 to 3 pm", "hoy, mar 1 dic, de 1 a 3 pm"),
        ("2026-12-02", (8, 0), (10, 0), "tomorrow, Wed 2 Dec, 8 to 10 am", "mañana, mié 2 dic, de 8 a 10 am"),
        ("2027-01-04", (11, 0), (13, 0), "Mon 4 Jan, 11 am to 1 pm", "lun 4 ene, de 11 am a 1 pm"),
    ],
)
def test_a_window_is_said_as_people_say_it(day, start, end, english, spanish):
    window = at(SHOP, day, *start), at(SHOP, day, *end)
    assert window_words(*window, "en", NOW) == english
    assert window_words(*window, "es", NOW) == spanish


def test_today_is_the_shops_today_not_the_servers():
    evening = datetime(2026, 12, 2, 5, tzinfo=UTC)  # still 1 December in Albuquerque
    assert day_words(at(SHOP, "2026-12-02", 8), "en", evening).startswith("tomorrow")


def test_a_moment_is_said_with_the_right_article_in_spanish():
    assert moment_words(at(SHOP, "2026-12-02", 8), "en", NOW) == "tomorrow at 8 am"
    assert moment_words(at(SHOP, "2026-12-02", 8), "es", NOW) == "mañana a las 8 am"
    assert moment_words(at(SHOP, "2026-12-07", 13), "es", NOW) == "lun 7 dic a la 1 pm"
    assert moment_words(at(SHOP, "2026-12-07", 13, 30), "es", NOW) == "lun 7 dic a la 1:30 pm"


def test_an_unknown_language_reads_english():
    assert window_words(at(SHOP, "2026-12-03", 10), at(SHOP, "2026-12-03", 12), "mixed", NOW).startswith("Thu 3 Dec")


@pytest.mark.parametrize(
    ("cents", "words"), [(8900, "$89"), (8950, "$89.50"), (125000, "$1,250"), (0, "$0"), (105, "$1.05")]
)
def test_a_fee_is_said_without_needless_cents(cents, words):
    assert fee_words(cents) == words


def test_english_windows_stay_in_the_seven_bit_alphabet():
    for day in range(1, 29):
        words = window_words(at(SHOP, f"2026-12-{day:02d}", 10), at(SHOP, f"2026-12-{day:02d}", 12), "en", NOW)
        assert count(words).encoding == "GSM-7"
