"""Facts told by the way in crowded texts: makers beside ages, wishes at the end, what began when, habits, events, addresses."""

from __future__ import annotations

import pytest

from service.reading.reader import Reader


@pytest.mark.parametrize(
    ("text", "brand", "age"),
    [
        ("ok so the washer its a top loader larkmere about seven yrs old and wont spin", "larkmere", 7),
        ("dispenser on the fridge drips. quillmere 6yr. we were away", "quillmere", 6),
        ("top shelf 45 in my fridge. brandelle 3 y.o.", "brandelle", 3),
        ("microwave weak. Pendrow over 10 years old", "Pendrow", 10),
        ("washer wont start. Top load, 7 yr, tessalin. can the guy bring it", "tessalin", 7),
        ("Same dryer, same breaker. Electric, Tolmere, about 10. Please text my wife", "Tolmere", 10),
        ("the dryer will not turn off. its an 8yr old Solmere", "Solmere", 8),
        ("la lavadora se camina, es de carga frontal Larkmere 6 años", "Larkmere", 6),
        ("la lavadora no exprime y la secadora no calienta las dos son Ostmere como de 8 años", "Ostmere", 8),
        ("stove wont light. ostmere 14 yrs or so", "ostmere", 14),
    ],
)  # fmt: skip
def test_a_maker_and_an_age_stand_beside_each_other(reader: Reader, text: str, brand: str, age: int) -> None:
    facts = reader.read(text).facts
    assert (facts.get("brand"), facts.get("age_years")) == (brand, age)


@pytest.mark.parametrize(
    "text",
    [
        "my son Zayden 6 years old put a toy in the disposal", "fridge warm. tenant Delia 3 yrs here",
        "dishwasher sprays. replased 2 yrs ago", "kids broke it. Grandkid 4 yrs old did it, the oven door",
    ],
)  # fmt: skip
def test_a_person_beside_an_age_is_no_maker(reader: Reader, text: str) -> None:
    assert "brand" not in reader.read(text).facts


@pytest.mark.parametrize(
    ("text", "age"),
    [
        ("fridge doors sag. Its an old one 18 yrs maybe more.", 18), ("garage fridge runs constantly. its like 20.", 20),
        ("dryer takes 3 cycles. 2 1/2 years old.", 2.5), ("lavadora truena, tiene como 12", 12),
        ("the freezer is warm. its like 20. thermometer says so", None), ("oven wont light, its like 7 minutes", None),
        ("my grandson is an 8 yr old and he broke the dryer door", None),
    ],
)  # fmt: skip
def test_an_age_is_told_in_pieces(reader: Reader, text: str, age: float | None) -> None:
    assert reader.read(text).facts.get("age_years") == age


@pytest.mark.parametrize(
    "text",
    [
        "washer wont drain, 9 yrs. We're home Thursday all day", "fridge is warm on top. Thursday or Friday only please",
        "microwave sparks. Mon-Fri 9-4.", "garage fridge both doors sagging. i can do evenings",
        "It shuts itself off halfway. 412 Ocotillo Bend. Soon as you can.", "washer is loud on spin. Any opening next wk?",
        "el lavaplatos no responde. vivimos cerca del parque, entre semana despues de las 5",
        "oven wont light, i bake thursdays so wednesday would be lovely", "oven wont hold temp. my days off are tues and weds",
        "washer leaks. first thing monday if you got it", "el refri hace ruido, solo puedo los sabados",
        "stove wont light. no rush, next week sometime", "fridge leaks. do you have anything saturday",
    ],
)  # fmt: skip
def test_a_time_at_the_end_asks_for_a_visit(reader: Reader, text: str) -> None:
    read = reader.read(text)
    assert "wish" in read.facts
    assert {"book", "report_problem"} <= set(read.intents)


@pytest.mark.parametrize(
    "text",
    [
        "el horno no prende, cuando puedan",
        "dryer thumps, whenever is fine",
        "fridge drips. come when u can, im retired",
    ],
)
def test_a_time_left_open_asks_for_a_visit(reader: Reader, text: str) -> None:
    assert "book" in reader.read(text).intents


@pytest.mark.parametrize(
    "text",
    [
        "dishwasher smells. only when it sat overnight", "it leaks mostly evenings", "runs all day thursday then quit",
        "washer broke thursday or friday, not sure", "lost all the meat friday. freezer not cold",
        "third shirt this week. washer",
        "Lightning storm tuesday, lights came back but the oven clock didnt", "microwave dies whenever the lights flicker",
    ],
)  # fmt: skip
def test_a_time_of_the_story_asks_for_none(reader: Reader, text: str) -> None:
    read = reader.read(text)
    assert "wish" not in read.facts
    assert "book" not in read.intents


@pytest.mark.parametrize(
    ("text", "since"),
    [
        ("two burners dont get warm and its been like that since I don't know if he did it", "been like that since"),
        ("oven door wont shut. i tightened the hinge. no good. been about a month", "been about a month"),
        ("temp shows 28 on the freezer. started overnight", "started overnight"),
        ("saturday the dryer just stopped turning", "saturday"), ("I been w/o a washer 11 days", "w/o a washer 11 days"),
        ("el refri gotea por abajo desde hace meses", "desde hace meses"),
        ("fridge: ticks. stops if i open the door. starts when i close it.", None),
        ("fridge is cold for a day then warm for a day then cold", None), ("garage was 108 yesterday, fridge runs", None),
    ],
)  # fmt: skip
def test_since_when_is_told_by_the_way(reader: Reader, text: str, since: str | None) -> None:
    assert reader.read(text).facts.get("since") == since


@pytest.mark.parametrize(
    ("text", "pattern"),
    [
        ("fridge makes a loud buzzing every 20 mins or so", "sometimes"), ("ice maker leaks whenever its on", "always"),
        ("the fridge is cold for a day then warm for a day", "sometimes"),
        ("1 out of 3 loads the dryer wont heat", "sometimes"),
        ("its been getting louder all winter, the dryer", "worsening"), ("dryer takes 2 hrs. every week worse", "worsening"),
        ("cada semana tarda más la secadora", "worsening"), ("any time i broil the oven trips the breaker", "always"),
        ("la luz del horno se apaga y luego vuelve sola", "sometimes"), ("the washer bailed and it worked one time", None),
        ("freezer lid wont stay down. runs all the time too", None), ("come whenever its good for you, dryer is dead", None),
        ("se le sale una gotita a la manguera, pongo una toallita cada semana", None),
    ],
)  # fmt: skip
def test_how_often_is_told_by_the_way(reader: Reader, text: str, pattern: str | None) -> None:
    assert reader.read(text).facts.get("pattern") == pattern


@pytest.mark.parametrize(
    ("text", "after"),
    [
        ("fridge is dead. happened right after we slid it out to mop", "moved"),
        ("antes de que nos cambiaramos en marzo no lo hacia la lavadora", "moved"),
        ("u came 2x for the fridge drip and its dripping", "repair"),
        ("the dispenser is dead, it worked before you came!!", "repair"),
        ("we got a softener put in a week ago. fridge dispenser drips", "plumbing_work"),
        ("they flushed the water lines on our block, washer fills slow", "plumbing_work"),
        ("since the kids dumped a whole pot of rice down it the disposal hums", "overload"),
        ("cooktop beeps, the house flicked off an on", "power_outage"),
        ("se fue y vino la luz y el micro ya no prende", "power_outage"),
        ("we just got new counters and the dishwasher flops forward", "remodel"),
        ("the self clean will not start it just says lock on my oven", None),
        ("mi hijo se corto con el vidrio de la estufa", None),
        ("lint screen on the dryer was hot when i pulled it out", None),
    ],
)  # fmt: skip
def test_what_happened_before_is_told_by_the_way(reader: Reader, text: str, after: str | None) -> None:
    assert reader.read(text).facts.get("after") == ((after,) if after else None)


@pytest.mark.parametrize(
    ("text", "address"),
    [
        ("I rent at 903 Vista del Pozo number 6, the dishwasher leaves grit", "903 Vista del Pozo number 6"),
        ("tenant at 44 Greasewood sent me a video: dishwasher grinding", "44 Greasewood"),
        ("vivo en la 1127 de la Cañada Verde, la estufa no prende", "1127 de la Cañada Verde"),
        ("a tech said compressor 1100 bucks no way. the fridge is warm", None), ("set to 40 Eco Mode, dishwasher", None),
    ],
)  # fmt: skip
def test_an_address_is_told_without_its_kind_of_street(reader: Reader, text: str, address: str | None) -> None:
    assert reader.read(text).facts.get("address") == address


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("Chest freezer never shuts off. Repair or scrap, cost? 87031.", "87031"),
        ("Wine cooler door sags. 4 yrs. 88005. Thurs or Fri a.m.", "88005"),
        ("ice tastes like a pool, we are in 87048 and monday is best", "87048"),
        ("la puerta del horno no sella 88011", "88011"),
        ("fridge warm, model 87031", None),
        ("87031 Mesa Bonita Rd, washer leaks", None),
        ("paid 80000 for this kitchen and the oven is dead", None),
        ("truck has 87000 miles lol. dryer squeals", None),
        ("order 88120, washer still dead", None),
    ],
)
def test_five_figures_by_themselves_are_where_it_is(reader: Reader, text: str, code: str | None) -> None:
    assert reader.read(text).facts.get("postal_code") == code
