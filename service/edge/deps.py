"""What the edge works with, handed in once by the application: nothing at the edge reaches for a global."""

from __future__ import annotations

import random
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import datetime

from sqlalchemy import Engine

from service.edge.editions import Editions
from service.edge.gateways import Gateway
from service.edge.shares import Shares
from service.rulebook.model import Rulebook
from service.settings import Settings


@dataclass(frozen=True, slots=True)
class Deps:
    """
    The edge's surroundings.

    ``clock`` gives aware moments. ``rulebook_of`` takes a shop's code and raises KeyError for a shop that is not there; where
    rules may change, it is ``editions``. ``random`` feeds the jitter of retries and is seeded in tests. ``gateways`` maps a
    profile's name to it.
    """

    engine: Engine
    clock: Callable[[], datetime]
    rulebook_of: Callable[[str], Rulebook]
    random: random.Random
    gateways: Mapping[str, Gateway]
    settings: Settings
    editions: Editions | None = None
    shares: Shares = field(default_factory=Shares)

    @property
    def editions_in_force(self) -> Editions:
        """``editions``; LookupError where rules were handed in that cannot change."""
        if self.editions is None:
            raise LookupError("these rules were handed in as they are: nothing can be learned over them")
        return self.editions
