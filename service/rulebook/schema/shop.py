"""A shop's own file: number, area, hours, people, money, policies, and what it overrides."""

from __future__ import annotations

from datetime import date, time
from typing import Annotated, Literal

from pydantic import Field

from service.rulebook.schema.common import Code, Grade, Language, Strict, Text

Day = Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
Number = Annotated[str, Field(pattern=r"^\+[1-9]\d{6,14}$")]
"""An E.164 phone number. Source N1."""
BESIDES_MACHINES = ("brand", "area")
"""What stands under ``refer`` beside appliances."""
Zip = Annotated[str, Field(pattern=r"^\d{5}$")]


class Span(Strict):
    """From one time of day to another, shop-local, ``[start, end)``."""

    start: time = Field(description="time of day, 24 hours: 08:00")
    end: time = Field(description="time of day, later than the start")


class ZipArea(Strict):
    """A ZIP code the shop serves and a point to measure from."""

    lat: float = Field(ge=-90, le=90, description="latitude of a point near its middle, degrees")
    lon: float = Field(ge=-180, le=180, description="longitude, degrees; west is below 0")
    name: str = Field(default="", description="what people call the place")


class Technician(Strict):
    """Who goes out: days and hours worked, skills, where the day starts."""

    id: Code = Field(description="its name in the diary")
    name: str = Field(description="as the customer hears it")
    phone: Number | None = Field(default=None, description="for texts to the technician")
    skills: tuple[Code, ...] = Field(description="appliance codes and extra skills such as gas, sealed_system")
    days: dict[Day, Span] = Field(description="the hours worked, by day of the week")
    off: tuple[date, ...] = Field(default=(), description="single days off")
    start_zip: Zip = Field(description="where the day starts, a ZIP code of the area")
    language: tuple[Language, ...] = Field(default=("en",), description="spoken, best first")
    van_litres: float = Field(default=120, gt=0, description="room for parts, litres")


class Fees(Strict):
    """What a visit costs, and the sentence that says so. No other price is ever stated."""

    visit_cents: int = Field(ge=0, description="what a visit costs the customer, whole cents")
    say: Text = Field(description="how the shop states its fee, with {fee}")
    second_trip_cents: int = Field(
        default=11000, gt=0, description="what a second trip costs the shop, whole cents, for the load list"
    )


class OnCall(Strict):
    """Who is texted after hours about a danger, in order."""

    name: str = Field(description="who it is")
    number: Number = Field(description="the phone that is texted")


class Policies(Strict):
    """How much the line may do alone, and the shop's other choices."""

    autonomy: Literal["draft", "hold", "automatic"] = Field(
        default="draft",
        description="draft: the office sends each reply; hold: it confirms bookings; automatic. Danger always goes out",
    )
    rest_s: float = Field(
        default=4, ge=0, le=15, description="seconds a text waits for the next one of the same thought"
    )
    quiet_start: time = Field(default=time(20, 0), description="no text of our own from this time of day")
    quiet_end: time = Field(default=time(8, 0), description="until this one, where the customer is")
    escalate_s: int = Field(default=600, ge=60, description="next on-call phone after this many seconds")
    silence_h: float = Field(default=20, gt=0, description="hours of silence after which one nudge is sent")
    quiet_close_days: float = Field(default=7, gt=0, description="days after which the ticket closes as gone quiet")
    offer_expires_h: float = Field(default=20, gt=0, description="hours an offer of windows stands")
    retention_days: int = Field(default=730, gt=0, description="days that texts are kept")
    questions_max: int = Field(default=5, ge=1, le=8, description="questions about one complaint, at most")
    checks_max: int = Field(
        default=2,
        ge=0,
        le=4,
        description="owner checks offered about one complaint, at most, unless the customer asks for more; 0: none ever",
    )
    spanish: Literal["accents", "seven_bit"] = Field(
        default="accents", description="seven_bit: no accents, cheaper texts"
    )
    learning: Literal["ask", "nightly"] = Field(
        default="ask",
        description="what outcomes would change waits for the author at the desk, or is taken over every night",
    )
    commercial: bool = Field(default=False, description="yes: businesses are served too")


class Brands(Strict):
    """Brands as the shop knows them: spellings customers use, and those it does not serve."""

    serves: dict[str, tuple[str, ...]] = Field(default={}, description="brand: spellings customers use")
    refuses: dict[str, tuple[str, ...]] = Field(default={}, description="brand the shop does not work on: spellings")


class Windows(Strict):
    """The hours promised: starts of day and length."""

    starts: tuple[time, ...] = Field(min_length=1, description="when a promised window may start, earliest first")
    minutes: int = Field(default=120, ge=30, le=480, description="how long a window is")
    lead_min: int = Field(default=90, ge=0, description="no window that starts sooner than this many minutes")
    days_ahead: int = Field(default=14, ge=1, le=60, description="how far ahead windows are offered, days")
    promise_quantile: float = Field(default=0.9, gt=0.5, lt=1, description="how sure a promised arrival must be")


class Travel(Strict):
    """How long between stops. ``road_factor`` over the great circle; source: computation notes, section travel."""

    road_factor: float = Field(default=1.3, ge=1, le=2, description="road length over the straight line")
    speed_kmh: float = Field(default=45, gt=5, le=110, description="usual speed on the road, kilometres an hour")
    per_stop_min: int = Field(default=4, ge=0, description="minutes to park and walk, each stop")


class CheckOverride(Strict):
    """A shop may switch an owner check off, or say why it wants it."""

    offered: bool = Field(description="no: the check is never offered")
    why: str = Field(description="the shop's reason")


class Serials(Strict):
    """A run of serial numbers, both ends in it, as they stand on the plate; letters and digits count, signs do not."""

    first: str = Field(min_length=2, description="the first serial number of the run")
    last: str = Field(min_length=2, description="the last one, with as many letters and digits")


class Recall(Strict):
    """
    A notice the shop knows of. Sheet and desk show it as possible, to be verified on the plate; no customer is ever told
    by the line that there is one, or that there is none.
    """

    id: Code = Field(description="its name in this list")
    listed: date = Field(description="the day the shop put it on the list")
    appliance: Code = Field(description="an appliance of the vocabulary")
    brand: str = Field(min_length=2, description="the brand on the plate")
    models: tuple[str, ...] = Field(default=(), description="model numbers; * for any ending; left out: all models")
    serials: tuple[Serials, ...] = Field(default=(), description="runs of serial numbers; left out: all of them")
    hazard: str = Field(min_length=3, description="what may happen, English")
    remedy: str = Field(min_length=3, description="what the notice says is to be done, English")
    notice: str = Field(min_length=3, description="where it stands: whose notice, its number and date")


class Replacing(Strict):
    """From where on a repair is talked over with the customer, by a person. The line says nothing of it."""

    age_years: int = Field(gt=0, le=40, description="machines of this age or older, years")
    cost_share: float = Field(gt=0, le=1, description="repairs above this share of a new machine's price")
    new_cents: int = Field(gt=0, description="what a like machine costs new, fitted, whole cents")


class Shop(Strict):
    """``shops/NAME.yaml``."""

    shop: Code = Field(description="its name; the file has the same")
    name: str = Field(description="as customers know it")
    number: Number = Field(description="the number customers text")
    office_phone: Number = Field(description="the number customers may call")
    email: str = Field(default="", description="for the calendar files the office gets")
    timezone: str = Field(description="an IANA time zone, such as America/Denver")
    languages: tuple[Language, ...] = Field(default=("en", "es"), description="languages the line answers in")
    serves: tuple[Code, ...] = Field(min_length=1, description="appliance codes")
    refer: dict[Code, Text] = Field(
        default={},
        description="where to turn with what the shop does not do: by appliance, and brand or area for one it refuses",
    )
    refer_otherwise: Text = Field(description="where to turn with anything else")
    area: dict[Zip, ZipArea] = Field(min_length=1, description="the ZIP codes served, in quotes")
    hours: dict[Day, Span] = Field(description="office hours, by day of the week")
    closed: tuple[date, ...] = Field(default=(), description="single days closed")
    technicians: tuple[Technician, ...] = Field(min_length=1, description="who goes out")
    windows: Windows = Field(description="the windows promised")
    travel: Travel = Field(default=Travel(), description="how long it takes from stop to stop")
    fees: Fees = Field(description="what a visit costs")
    brands: Brands = Field(default=Brands(), description="brands served and refused")
    on_call: tuple[OnCall, ...] = Field(default=(), description="who is texted after hours about a danger, in order")
    policies: Policies = Field(default=Policies(), description="what the line may do alone")
    gateway: Code = Field(default="loopback", description="the profile of the gateway that carries the texts")
    weights: dict[Code, dict[Code, float]] = Field(default={}, description="appliance: cause: weight")
    evidence: dict[Code, dict[Code, dict[Code, Grade]]] = Field(
        default={}, description="appliance: cause: observation: grade"
    )
    checks: dict[Code, dict[Code, CheckOverride]] = Field(default={}, description="appliance: check: offered or not")
    wording: dict[Language, dict[str, str]] = Field(
        default={}, description="language: sentence id: the shop's own sentence"
    )
    recalls: tuple[Recall, ...] = Field(
        default=(), description="notices the shop knows of, for sheet and desk: possible, verify"
    )
    replace: dict[Code, Replacing] = Field(
        default={}, description="appliance: from where on replacing is talked over, by a person only"
    )
