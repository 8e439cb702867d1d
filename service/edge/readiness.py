"""Which gateways can work with the secrets there are: told at the start, before the first text waits in vain."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import partial

from service.edge.filling import PLACEHOLDER
from service.edge.gateways import Gateway, ProfilesMistaken
from service.edge.profile import Profile
from service.edge.profile_proofs import Addresses, Auth, Hmac, StandardWebhooks
from service.edge.profile_send_checks import templates
from service.edge.verify import SecretUnusable, key_bytes, sign_standard
from service.rulebook.problems import did_you_mean
from service.rulebook.schema.shop import Shop

SETTING = "PLAINFAULT_GATEWAY_SECRETS"


UNCHOSEN = str(Shop.model_fields["gateway"].default)
"""The gateway of a shop whose file names none."""

Spoilt = tuple[str, str]
"""The name of a secret that is there and cannot be used, and what is wrong with it."""


class GatewaysNotReady(ProfilesMistaken):
    """A shop sends through a gateway that cannot send; the message says what is missing and how to give it."""


@dataclass(frozen=True, slots=True)
class Names:
    """The secrets a profile names: to send by, and to know by that a delivery is the gateway's; each once, in order."""

    send: tuple[str, ...]
    take: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Standing:
    """
    How a gateway stands for one shop. given: whether any of its secrets is there. to_send, to_take: those that are not.

    spoilt, spoilt_to_send: what is wrong with those that are there, never the secrets themselves.
    """

    gateway: str
    shop: str
    used: bool
    given: bool
    to_send: tuple[str, ...]
    to_take: tuple[str, ...]
    spoilt: tuple[Spoilt, ...] = ()
    spoilt_to_send: tuple[Spoilt, ...] = ()

    @property
    def ready(self) -> bool:
        """Whether it lacks nothing."""
        return not (self.to_send or self.to_take or self.spoilt or self.spoilt_to_send)

    @property
    def refused(self) -> bool:
        """Whether the shop sends through it, and it cannot send."""
        return self.used and bool(self.to_send or self.spoilt_to_send)

    @property
    def half_done(self) -> bool:
        """Whether somebody began to set it up."""
        return not self.ready and (self.given or self.used)

    def __str__(self) -> str:
        """What is missing and how to give it, in a sentence or two."""
        lacks = tuple(dict.fromkeys((*self.to_send, *self.to_take)))
        begins = f"Shop {self.shop} sends through gateway {self.gateway}"
        if not self.used:
            begins = f"Gateway {self.gateway} is half set up for shop {self.shop}"
        cannot = [
            *([f"it cannot send without {self._named(self.to_send)}"] if self.to_send else []),
            *([f"it takes no delivery without {self._named(self.to_take)}"] if self.to_take else []),
        ]
        cannot += [f'"{self.gateway}.{name}" is {wrong}' for name, wrong in (*self.spoilt_to_send, *self.spoilt)]
        many = len(lacks) + len(self.spoilt_to_send) + len(self.spoilt) > 1
        return f"{begins}: {'; '.join(cannot)}. Set {'them' if many else 'it'} in {SETTING}."

    def _named(self, names: tuple[str, ...]) -> str:
        return ", ".join(f'"{self.gateway}.{name}"' for name in names)


def names_of(profile: Profile) -> Names:
    """The names of the secrets that *profile* needs."""
    takes = dict.fromkeys(way.secret for way in _ways(profile) if not isinstance(way, Addresses))
    return Names(tuple(dict.fromkeys(_in_send(profile))), tuple(takes))


def _ways(profile: Profile) -> list[Auth]:
    receive, receipts = profile.receive, profile.receipts
    asks = receive.asks_first if receive else None
    return [way for rule in (receive, asks, receipts) if rule for way in rule.auth]


def _in_send(profile: Profile) -> Iterator[str]:
    send = profile.send
    if send is None:
        return
    patterns = [template for _, template in templates(send)] + [rule.of for rule in send.computed.values()]
    for pattern in patterns:
        yield from (match[1][7:] for match in PLACEHOLDER.finditer(pattern) if match[1].startswith("secret:"))
    yield from (rule.key for rule in send.computed.values() if rule.key)
    if send.auth:
        yield send.auth.secret


def standing(gateway: Gateway, shop: str, *, used: bool) -> Standing:
    """How *gateway* stands for *shop*; *used*: whether the shop sends through it."""
    names = names_of(gateway.profile)
    there = {n: gateway.secret(shop, n) for n in (*names.send, *names.take) if gateway.has_secret(shop, n)}
    return Standing(
        gateway.name, shop, used, bool(there),
        to_send=tuple(name for name in names.send if name not in there),
        to_take=tuple(name for name in names.take if name not in there),
        spoilt=tuple(_spoilt_proofs(gateway.profile, there)),
        spoilt_to_send=tuple(_spoilt_sends(gateway.profile, there)),
    )  # fmt: skip


def _spoilt_sends(profile: Profile, there: Mapping[str, str]) -> Iterator[Spoilt]:
    send = profile.send
    if send is None:
        return
    begins = re.match(r"\{secret:([a-z0-9_]+)\}", send.url)
    if begins and begins[1] in there and not re.match(r"https?://[^/\s]", there[begins[1]]):
        yield begins[1], "no address; it begins with https://"
    for rule in send.computed.values():
        if rule.key is not None and rule.key in there:
            yield from _spoilt(rule.key, partial(key_bytes, there[rule.key], rule.key_written))


def _spoilt_proofs(profile: Profile, there: Mapping[str, str]) -> Iterator[Spoilt]:
    for way in _ways(profile):
        if isinstance(way, Hmac) and way.secret in there:
            yield from _spoilt(way.secret, partial(key_bytes, there[way.secret], way.key_written))
        elif isinstance(way, StandardWebhooks) and way.secret in there:
            yield from _spoilt(way.secret, partial(sign_standard, there[way.secret], "", 0, b""))


def _spoilt(name: str, use: Callable[[], object]) -> Iterator[Spoilt]:
    try:
        use()
    except SecretUnusable as wrong:
        yield name, f"unusable: {wrong}"


def standings(gateways: Mapping[str, Gateway], shops: Mapping[str, str]) -> tuple[Standing, ...]:
    """How every gateway stands for every shop; *shops*: each with the name of the gateway it sends through."""
    return tuple(
        standing(gateway, shop, used=used == gateway.name)
        for gateway in gateways.values()
        for shop, used in sorted(shops.items())
    )


def not_there(known: Collection[str], shops: Mapping[str, str]) -> tuple[str, ...]:
    """What to say of shops that send through a gateway of which there is no profile among those *known*."""
    return tuple(
        f'Shop {shop} sends through gateway "{name}", and there is no profile of that name. '
        + (did_you_mean(name, known) or f"There are {', '.join(sorted(known))}.")
        + f" Set gateway: in rules/shops/{shop}.yaml."
        for shop, name in sorted(shops.items())
        if name not in known and name != UNCHOSEN
    )


def nobody_chose(known: Collection[str], shops: Mapping[str, str]) -> tuple[str, ...]:
    """What to say of shops that name no gateway where there is no simulated phone: replies go back as they came."""
    return tuple(
        f"Shop {shop} names no gateway of its own: replies go out by the gateway their text came from, texts to the on-call "
        f"phones do not go out. Set gateway: in rules/shops/{shop}.yaml."
        for shop, name in sorted(shops.items())
        if name not in known and name == UNCHOSEN
    )


def unasked(gateways: Mapping[str, Gateway], given: Iterable[str], shops: Iterable[str]) -> tuple[str, ...]:
    """What to say of secrets that were given and that no profile asks for: they are likely misspelt."""
    wanted = dict.fromkeys(gateways)
    for name, gateway in gateways.items():
        needs = names_of(gateway.profile)
        wanted |= {f"{name}.{secret}": None for secret in (*needs.send, *needs.take)}
    return tuple(
        f'{SETTING} holds "{one}", and no profile asks for it. {did_you_mean(one.rpartition("/")[2], wanted)}'.rstrip()
        for one in sorted(given)
        if one.rpartition("/")[2] not in wanted or ("/" in one and one.partition("/")[0] not in set(shops))
    )


def look_over(gateways: Mapping[str, Gateway], shops: Mapping[str, str], given: Iterable[str]) -> tuple[str, ...]:
    """
    What a person should know before texts come: gateways half set up, and secrets nobody asks for.

    Raises GatewaysNotReady when a shop sends through a gateway that is not there or cannot send.
    """
    found = standings(gateways, shops)
    refused = [*not_there(gateways, shops), *(str(one) for one in found if one.refused)]
    if refused:
        raise GatewaysNotReady("\n".join(refused))
    return (
        *nobody_chose(gateways, shops),
        *(str(one) for one in found if one.half_done),
        *unasked(gateways, given, shops),
    )
