"""Every setting of the service, read once from the environment, all problems reported together."""

from __future__ import annotations

import json
import os
from collections.abc import Mapping
from pathlib import Path

from pydantic import BaseModel, ConfigDict, Field, SecretStr, ValidationError, field_validator
from rapidfuzz import process

PREFIX = "PLAINFAULT_"


class SettingsMistaken(Exception):
    """A setting is missing, misspelt or cannot be used; the message lists all of them with their remedies."""


class Settings(BaseModel):
    """What the environment says. Names in the environment are these in capitals, with ``PLAINFAULT_`` before them."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    database: str = Field(description="where rows are kept: sqlite:///FILE or postgresql+psycopg://USER@HOST/NAME")
    secret: SecretStr = Field(min_length=32, description="signs visit-sheet links and forms; 32 characters or more")
    rules: Path = Field(default=Path("rules"), description="the folder of rule files")
    gateways: Path = Field(default=Path("deploy/gateways"), description="the folder of gateway profiles")
    gateway_secrets: dict[str, SecretStr] = Field(
        default={}, description='a JSON object, "SHOP/GATEWAY" or "GATEWAY" to the secret that its profile names'
    )
    shops: tuple[str, ...] = Field(
        default=("demo",), description="the shops to serve, by their file's name, commas between"
    )
    base_url: str = Field(default="http://127.0.0.1:8000", description="how the desk is reached from outside")
    host: str = Field(default="127.0.0.1", description="address to listen on")
    port: int = Field(default=8000, ge=0, le=65535, description="port to listen on")
    sender: bool = Field(default=True, description="also run the sender in the web process (always so on SQLite)")
    log_level: str = Field(default="INFO", description="how much to log: DEBUG, INFO, WARNING or ERROR")
    max_body_bytes: int = Field(default=65536, ge=1024, description="largest webhook body taken, bytes")
    shop_share: float = Field(
        default=20.0, gt=0, description="texts a second that one shop may take of a process; more are answered later"
    )
    secure_cookies: bool = Field(default=True, description="cookies over HTTPS only; off for plain HTTP on loopback")

    @field_validator("shops", mode="before")
    @classmethod
    def _split(cls, value: object) -> object:
        return tuple(part.strip() for part in value.split(",") if part.strip()) if isinstance(value, str) else value

    @field_validator("gateway_secrets", mode="before")
    @classmethod
    def _parse(cls, value: object) -> object:
        return json.loads(value) if isinstance(value, str) else value

    @property
    def on_sqlite(self) -> bool:
        """Whether one process does everything, guarded by a lock file."""
        return self.database.startswith("sqlite")

    def gateway_secret(self, shop: str, gateway: str) -> str | None:
        """The secret of a shop's gateway: its own before the gateway's common one."""
        found = self.gateway_secrets.get(f"{shop}/{gateway}") or self.gateway_secrets.get(gateway)
        return found.get_secret_value() if found else None


def load_settings(environment: Mapping[str, str] | None = None) -> Settings:
    """
    The settings of *environment* (the process's own if None).

    Raises SettingsMistaken naming every setting that is wrong, missing or unknown, with what to do.
    """
    source = os.environ if environment is None else environment
    given = {name[len(PREFIX) :].lower(): value for name, value in source.items() if name.startswith(PREFIX)}
    problems = [_unknown(name) for name in sorted(given) if name not in Settings.model_fields]
    try:
        settings = Settings.model_validate({k: v for k, v in given.items() if k in Settings.model_fields})
    except ValidationError as wrong:
        problems += [_wrong(error["loc"], error["msg"]) for error in wrong.errors(include_input=False)]
    if problems:
        raise SettingsMistaken("\n".join(problems))
    return settings


def _unknown(name: str) -> str:
    near = process.extractOne(name, list(Settings.model_fields), score_cutoff=60)
    hint = f" Did you mean {PREFIX}{near[0].upper()}?" if near else ""
    return f"{PREFIX}{name.upper()} is not a setting.{hint}"


def _wrong(location: tuple[int | str, ...], message: str) -> str:
    name = str(location[0]) if location else "?"
    field = Settings.model_fields.get(name)
    return f"{PREFIX}{name.upper()}: {message}. It says {field.description if field else 'what DEVELOPERS.md lists'}."
