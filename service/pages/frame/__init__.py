"""What every page of a signed-in person carries around its own matter: name, places to go, the token of its forms."""

from __future__ import annotations

from dataclasses import dataclass

from service.access.sessions import SignedIn


@dataclass(frozen=True, slots=True)
class Place:
    """Somewhere to go."""

    href: str
    name: str
    here: bool


@dataclass(frozen=True, slots=True)
class Frame:
    """Around a page. csrf: what each form carries. paused: nothing goes out but danger and consent."""

    title: str
    shop: str
    user: str
    csrf: str
    places: tuple[Place, ...]
    paused: bool = False


def frame_for(session: SignedIn, *, title: str, shop: str, here: str, paused: bool = False) -> Frame:
    """The frame for *session*'s permissions; *here* is the path of the place the page belongs to."""
    found = [("/desk", "Tickets")] if session.may("read_desk") else []
    found += [("/desk/new", "New ticket")] if session.may("act_desk") else []
    found += [("/desk/day", "Days")] if session.may("see_days") else []
    found += [("/desk/reports", "Reports")] if session.may("read_desk") else []
    found += [("/desk/learning", "Learning")] if session.may("read_desk") else []
    found += [("/desk/rules", "Rules")] if session.may("write_rules") else []
    found += [("/desk/shop", "Shop")] if session.may("switch_shop") else []
    places = tuple(Place(href, name, href == here) for href, name in found)
    return Frame(title, shop, session.user.name, session.csrf, places, paused)
