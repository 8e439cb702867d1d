"""The gateways there are: their profiles read from files, each with the secrets the settings hold for it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from service.edge.profile import Profile
from service.edge.profile_checks import mistakes
from service.rulebook.problems import Problem
from service.rulebook.shapes import shaped
from service.rulebook.yaml_text import Written, read_yaml

SecretOf = Callable[[str, str], str | None]
"""(shop, name) to the secret kept for it, or None: ``Settings.gateway_secret``."""


class ProfilesMistaken(Exception):
    """Gateway profiles cannot be used; the message names file, line, field and remedy of every mistake."""


class SecretMissing(Exception):
    """A profile names a secret that the settings do not hold; the message says how to give it, never its value."""


@dataclass(frozen=True, slots=True)
class Gateway:
    """A profile that can be used: with where its secrets are found."""

    profile: Profile
    secret_of: SecretOf

    @property
    def name(self) -> str:
        """The profile's name, as shops and hooks name it."""
        return self.profile.gateway

    @property
    def local(self) -> bool:
        """Whether a text is there once it is written: nothing to send."""
        return self.profile.local

    @property
    def answers_at_once(self) -> bool:
        """Whether the reply is the HTTP answer: then texts must not rest."""
        return self.profile.receive is not None and self.profile.receive.answer.kind == "reply"

    def secret(self, shop: str, name: str) -> str:
        """
        The secret called *name*: ``SHOP/GATEWAY.NAME``, ``GATEWAY.NAME``, ``SHOP/GATEWAY`` or ``GATEWAY``, first found.

        Raises SecretMissing.
        """
        found = self._secret(shop, name)
        if not found:
            raise SecretMissing(
                f'Gateway {self.name} needs its secret "{name}". Put "{self.name}.{name}" into the setting '
                "PLAINFAULT_GATEWAY_SECRETS."
            )
        return found

    def has_secret(self, shop: str, name: str) -> bool:
        """Whether ``secret`` finds one."""
        return bool(self._secret(shop, name))

    def _secret(self, shop: str, name: str) -> str | None:
        return self.secret_of(shop, f"{self.name}.{name}") or self.secret_of(shop, self.name)


def load_gateways(folder: Path, secret_of: SecretOf) -> dict[str, Gateway]:
    """
    Every profile of *folder* (``*.yaml``) by its name.

    Raises ProfilesMistaken with all mistakes of all files. A missing secret is no mistake here: a profile nobody uses
    needs none.
    """
    profiles, problems = read_profiles(folder)
    if problems:
        raise ProfilesMistaken("\n".join(str(problem) for problem in problems))
    return {profile.gateway: Gateway(profile, secret_of) for profile in profiles}


def read_profiles(folder: Path) -> tuple[list[Profile], list[Problem]]:
    """The profiles of *folder* that can be used, and all that is wrong with the others, by file and line."""
    profiles: list[Profile] = []
    problems: list[Problem] = []
    for path in sorted(folder.glob("*.yaml")):
        profile, wrong = read_profile(path)
        problems += wrong
        profiles += [profile] if profile is not None else []
    if not profiles and not problems:
        remedy = "Set PLAINFAULT_GATEWAYS to the folder that holds them."
        problems.append(Problem(folder.name, 0, "", "There is no gateway profile (*.yaml) here.", "", remedy))
    return profiles, sorted(problems)


class _Profile(Written):
    """A profile as typed; its fields are called by their names alone, for an ``id`` in it names a place, no rule."""

    def where(self, path: Sequence[str | int]) -> str:
        """*path* without what the file has not got, but for a last name, which may be the one missing."""
        words: list[str] = []
        for depth, part in enumerate(path, 1):
            missing = depth == len(path) and isinstance(part, str) and part.isidentifier()
            if self.has(path[:depth]) or missing:
                words.append(str(part + 1) if isinstance(part, int) else part)
        return " > ".join(words)


def read_profile(path: Path) -> tuple[Profile | None, list[Problem]]:
    """One profile; None with what is wrong with it and how to mend that."""
    file = f"{path.parent.name}/{path.name}"
    text, problems = read_yaml(path, file)
    if text is None:
        return None, problems
    written = _Profile(text.file, text.text, text.value)
    profile, problems = shaped(written, Profile)
    if profile is not None and profile.gateway != path.stem:
        found = f'The profile is called "{profile.gateway}", its file "{path.stem}".'
        return None, [Problem(file, written.line(("gateway",)), "gateway", found, "", "Give both the same name.")]
    if profile is not None:
        problems = [
            Problem(file, written.line(wrong.path), written.where(wrong.path), wrong.found, "", wrong.remedy)
            for wrong in mistakes(profile)
        ]
    return (None, problems) if problems else (profile, [])
