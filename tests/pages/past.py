"""A shop's past: some months of tickets and outcomes, the same on every run."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime, timedelta
from random import Random
from typing import Any

from sqlalchemy import Connection, insert

from service.conversation.state import State, TicketState
from service.storage import outcomes
from service.storage.tables import threads, tickets

CAUSES = ("seal_worn", "line_grease", "sump_glass", "filter_clogged", "pump_worn")


@dataclass
class Past:
    """Writes closed tickets, a thread each, from *now* backwards."""

    connection: Connection
    now: datetime
    number: int = 2000
    kept: list[str] = field(default_factory=list)

    def ticket(self, days_ago: float, *, closed: str = "repaired", questions: int = 2, appliance: str = "dishwasher",
               symptoms: dict[str, bool] | None = None, machine: str | None = None, **more: Any) -> str:  # fmt: skip
        """A closed ticket; gives its row id."""
        self.number += 1
        at, thread = self.now - timedelta(days=days_ago), f"past{self.number}"
        state = TicketState(
            key="t1", appliance=appliance, stage="closed", closed=closed, opened_at=at - timedelta(hours=30),
            symptoms=symptoms or {"slow_drain": True}, questions=questions, **more,
        )  # fmt: skip
        whole = State(tickets=(state,)).model_dump(mode="json")
        self.connection.execute(
            insert(threads).values(
                id=thread, shop="demo", number=f"+1505555{self.number}", gateway="loopback", language="en", consent="in",
                state=whole, turns=1, created_at=at,
            )
        )  # fmt: skip
        self.connection.execute(
            insert(tickets).values(
                id=f"{thread}-t1", shop="demo", number=self.number, thread=thread, key="t1", appliance=appliance,
                machine=machine, stage="closed", closed=closed, level="routine", state=state.model_dump(mode="json"),
                earlier=None, opened_at=state.opened_at, changed_at=at, closed_at=at,
            )
        )  # fmt: skip
        self.kept.append(f"{thread}-t1")
        return f"{thread}-t1"

    def outcome(self, ticket: str, days_ago: float, found: str, **more: Any) -> None:
        """What a technician recorded for the ticket."""
        values: dict[str, Any] = {
            "appliance": "dishwasher", "source": "technician", "fixed": True, "by": "ray", "edition": "e1",
            "visit": f"v{ticket}{days_ago}", "now": self.now - timedelta(days=days_ago),
        }  # fmt: skip
        outcomes.record(self.connection, shop="demo", ticket=ticket, found=found, **{**values, **more})

    def many(self, count: int, seed: int = 3) -> None:
        """*count* visits over half a year, forecast fairly well; and a third as many settled by the owner."""
        rng = Random(seed)
        for place in range(count):
            days = 170 - 165 * place / count
            ticket = self.ticket(days, questions=rng.randrange(5))
            shares = sorted((rng.expovariate(1) for _ in CAUSES), reverse=True)
            belief = [(cause, share / sum(shares)) for cause, share in zip(CAUSES, shares, strict=True)]
            found = rng.choices(CAUSES, [share for _, share in belief])[0]
            finish = rng.uniform(0.5, 0.95)
            carry = rng.random() < 0.7
            self.outcome(
                ticket, days, found, belief=belief, fixed=rng.random() < finish, parts=["seal_kit"] if place % 3 else [],
                minutes=40 + place % 60,
                evidence={"symptoms": {"slow_drain": True}, "observations": {}, "asked": []},
                forecast={"finish": finish, "load": [["seal_kit", 0.4, carry]], "usual": 50, "promise": 90},
            )  # fmt: skip
            if place % 3 == 0:
                chance, more = [0.12, 0.35, 0.6][place % 9 // 3], place % 4 == 0
                self.ticket(
                    days - 1, closed="settled_by_owner" if more else "repaired", questions=1,
                    checks={"clean_filter": "fixed" if more else "not_fixed"}, check_chances={"clean_filter": chance},
                )  # fmt: skip
