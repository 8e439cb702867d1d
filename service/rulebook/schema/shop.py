"""A shop's own file: number, area, hours, people, money, policies, and what it overrides."""

from __future__ import annotations

from datetime import date, time
from typing import Annotated, Literal

from pydantic import Field

from service.rulebook.schema.common import Code, Grade, Strict, Text

Day = Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
Number = Annotated[str, Field(pattern=r"^\+[1-9]\d{6,14}$")]
"""An E.164 phone number. Source N1."""
Zip = Annotated[str, Field(pattern=r"^\d{5}$")]


class Span(Strict):
    """From one time of day to another, shop-local, ``[start, end)``."""

    start: time
    end: time


class ZipArea(Strict):
    """A ZIP code the shop serves and a point to measure from."""

    lat: float = Field(ge=-90, le=90)
    lon: float = Field(ge=-180, le=180)
    name: str = ""


class Technician(Strict):
    """Who goes out: days and hours worked, skills, where the day starts."""

    id: Code
    name: str
    phone: Number | None = None
    skills: tuple[Code, ...] = Field(description="appliance codes and extra skills such as gas, sealed_system")
    days: dict[Day, Span]
    off: tuple[date, ...] = ()
    start_zip: Zip
    language: tuple[Literal["en", "es"], ...] = ("en",)
    van_litres: float = Field(default=120, gt=0)


class Fees(Strict):
    """What a visit costs, and the sentence that says so. No other price is ever stated."""

    visit_cents: int = Field(ge=0)
    say: Text = Field(description="how the shop states its fee, with {fee}")
    second_trip_cents: int = Field(
        default=11000, gt=0, description="what a second trip costs the shop, for the load list"
    )


class OnCall(Strict):
    """Who is texted after hours about a danger, in order."""

    name: str
    number: Number


class Policies(Strict):
    """How much the line may do alone, and the shop's other choices."""

    autonomy: Literal["draft", "hold", "automatic"] = "draft"
    rest_s: float = Field(default=4, ge=0, le=15)
    quiet_start: time = time(20, 0)
    quiet_end: time = time(8, 0)
    escalate_s: int = Field(default=600, ge=60, description="next on-call phone after this long")
    silence_h: float = Field(default=20, gt=0, description="silence after which one nudge is sent")
    quiet_close_days: float = Field(default=7, gt=0, description="then the ticket closes as gone quiet")
    offer_expires_h: float = Field(default=20, gt=0)
    retention_days: int = Field(default=730, gt=0)
    questions_max: int = Field(default=5, ge=1, le=8)
    checks_max: int = Field(default=2, ge=0, le=4)
    spanish: Literal["accents", "seven_bit"] = "accents"
    commercial: bool = False


class Brands(Strict):
    """Brands as the shop knows them: spellings customers use, and those it does not serve."""

    serves: dict[str, tuple[str, ...]] = Field(default={}, description="brand: spellings customers use")
    refuses: dict[str, tuple[str, ...]] = Field(default={}, description="brand the shop does not work on: spellings")


class Windows(Strict):
    """The hours promised: starts of day and length."""

    starts: tuple[time, ...] = Field(min_length=1)
    minutes: int = Field(default=120, ge=30, le=480)
    lead_min: int = Field(default=90, ge=0, description="no window that starts sooner than this")
    days_ahead: int = Field(default=14, ge=1, le=60)
    promise_quantile: float = Field(default=0.9, gt=0.5, lt=1)


class Travel(Strict):
    """How long between stops. ``road_factor`` over the great circle; source: computation notes, section travel."""

    road_factor: float = Field(default=1.3, ge=1, le=2)
    speed_kmh: float = Field(default=45, gt=5, le=110)
    per_stop_min: int = Field(default=4, ge=0)


class CheckOverride(Strict):
    """A shop may switch an owner check off, or say why it wants it."""

    offered: bool
    why: str


class Shop(Strict):
    """``shops/NAME.yaml``."""

    shop: Code
    name: str
    number: Number
    office_phone: Number
    email: str = ""
    timezone: str
    languages: tuple[Literal["en", "es"], ...] = ("en", "es")
    serves: tuple[Code, ...] = Field(min_length=1, description="appliance codes")
    refer: dict[Code, Text] = Field(default={}, description="where to turn with what the shop does not do")
    refer_otherwise: Text
    area: dict[Zip, ZipArea] = Field(min_length=1)
    hours: dict[Day, Span]
    closed: tuple[date, ...] = ()
    technicians: tuple[Technician, ...] = Field(min_length=1)
    windows: Windows
    travel: Travel = Travel()
    fees: Fees
    brands: Brands = Brands()
    on_call: tuple[OnCall, ...] = ()
    policies: Policies = Policies()
    gateway: Code = "loopback"
    weights: dict[Code, dict[Code, float]] = Field(default={}, description="appliance: cause: weight")
    evidence: dict[Code, dict[Code, dict[Code, Grade]]] = Field(default={}, description="appliance: cause: observation")
    checks: dict[Code, dict[Code, CheckOverride]] = Field(default={}, description="appliance: check")
    wording: dict[Literal["en", "es"], dict[str, str]] = Field(
        default={}, description="language: sentence id: sentence"
    )
