"""
A process that has the service's modules and rules in memory and forks a service process for each line it reads.

What is forked is the service's own command in a process of its own, to be killed like any; only the seconds that each
start would spend reading rules are spent once. Lines: ``serve`` or ``send``; answered by the process id.
"""

from __future__ import annotations

import os
import signal
import sys
from functools import cache
from pathlib import Path

import service.app
import service.cli
from service.reading.readers import reader_for
from service.rulebook.loading import load_rulebook


def main() -> None:
    """Read, fork, answer, until the input ends."""
    load = cache(load_rulebook)
    vars(service.app)["load_rulebook"] = load
    reader_for(load(Path(os.environ["PLAINFAULT_RULES"]), "demo"))
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)  # the children are nobody's to wait for
    for line in sys.stdin:
        child = os.fork()
        if child == 0:
            signal.signal(signal.SIGCHLD, signal.SIG_DFL)
            os.dup2(2, 1)
            os.dup2(os.open(os.devnull, os.O_RDONLY), 0)
            service.cli.main([line.strip()])
            os._exit(0)
        print(child, flush=True)


if __name__ == "__main__":
    main()
