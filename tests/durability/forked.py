"""The service's processes without the seconds that each start takes: forked of one that has read the rules."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

from tests.conftest import ROOT
from tests.durability.harness import Processes


@dataclass
class Forked(Processes):
    """The same processes, forked from a nursery that has read the rules already."""

    nursery: subprocess.Popen[str] | None = None
    pids: dict[str, int] = field(default_factory=dict)

    def begin(self, command: str) -> None:
        """Fork one of them."""
        if self.nursery is None:
            program = [sys.executable, "-m", "tests.durability.nursery"]
            with (self.folder / "log").open("ab") as log:
                self.nursery = subprocess.Popen(
                    program,
                    env=self.environment(),
                    cwd=ROOT,
                    stdin=subprocess.PIPE,
                    stdout=subprocess.PIPE,
                    stderr=log,
                    text=True,
                )
        assert self.nursery.stdin
        assert self.nursery.stdout
        self.nursery.stdin.write(f"{command}\n")
        self.nursery.stdin.flush()
        self.pids[command] = int(self.nursery.stdout.readline())

    def wait(self) -> None:
        """Until the web process answers; what ended by itself is started again, as a supervisor does."""
        deadline = time.monotonic() + 120
        while not self.answers():
            self.restart_ended()
            assert time.monotonic() < deadline, (
                "the web process did not start: " + (self.folder / "log").read_text()[-3000:]
            )
            time.sleep(0.02)

    def restart_ended(self) -> None:
        """Begin again what is there no more."""
        for command, pid in list(self.pids.items()):
            if not Path(f"/proc/{pid}").exists():
                self.begin(command)

    def kill(self, *commands: str) -> None:
        """kill -9: those *commands*, or all."""
        killed = [self.pids.pop(command) for command in commands or tuple(self.pids)]
        for pid in killed:
            with suppress(ProcessLookupError):  # it ended by itself: its database was away when it began
                os.kill(pid, signal.SIGKILL)
        while any(Path(f"/proc/{pid}").exists() for pid in killed):
            time.sleep(0.005)

    def close(self) -> None:
        """End them all, and the nursery."""
        self.kill()
        if self.nursery:
            self.nursery.kill()
            self.nursery.communicate()
