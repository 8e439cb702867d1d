"""What `plainfault gateways` says: each gateway ready, not set up, half set up, or mistaken and where."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path

from service.edge.gateways import Gateway, SecretOf, read_profiles
from service.edge.readiness import SETTING, Standing, nobody_chose, not_there, standings, unasked


def roll_call(folder: Path, shops: Mapping[str, str], secret_of: SecretOf, given: Iterable[str]) -> tuple[str, bool]:
    """
    How the gateways of *folder* stand, and whether the line would start on them.

    shops: those served, each with the gateway it sends through. given: the names of the secrets the settings hold.
    """
    profiles, problems = read_profiles(folder)
    gateways = {profile.gateway: Gateway(profile, secret_of) for profile in profiles}
    found = standings(gateways, shops)
    lines: list[str] = []
    for name, gateway in gateways.items():
        lines += [f"{name}: {gateway.profile.about}", *_of_one([one for one in found if one.gateway == name])]
    missing = () if problems else not_there(gateways, shops)
    refused = bool(problems or missing or any(one.refused for one in found))
    hints = () if problems else (*nobody_chose(gateways, shops), *unasked(gateways, given, shops))
    lines += [*missing, *hints, *(str(problem) for problem in problems)]
    lines.append("The line does not start on this." if refused else "The line starts on this.")
    return "\n".join(lines), not refused


def _of_one(found: Sequence[Standing]) -> Iterator[str]:
    for one in found:
        uses = ", which sends through it" if one.used else ""
        if one.ready:
            yield f"  ready for {one.shop}{uses}"
        elif one.half_done:
            yield f"  {one}"
        else:
            names = ", ".join(f'"{one.gateway}.{name}"' for name in dict.fromkeys((*one.to_send, *one.to_take)))
            yield f"  not set up for {one.shop}; it takes {names} in {SETTING}"
