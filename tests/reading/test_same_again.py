"""The same text reads the same in every process, whatever order its sets happen to have there."""

from __future__ import annotations

import os
import subprocess
import sys

from tests.conftest import ROOT

PROGRAM = """
import hashlib, json
from service.reading.bulk import read_line
from tests.reading.score import TEXTS, demo_reader, lines_of
digest = hashlib.sha256()
for line in lines_of(sorted(TEXTS.glob("*.jsonl")))[::25]:
    digest.update(json.dumps(read_line(demo_reader(), line, this_year=2026), sort_keys=True, default=str).encode())
print(digest.hexdigest())
"""


def test_every_process_reads_alike() -> None:
    seen = set()
    for seed in ("0", "2", "7"):
        environment = os.environ | {"PYTHONHASHSEED": seed}
        done = subprocess.run(
            [sys.executable, "-c", PROGRAM], cwd=ROOT, env=environment, check=True, capture_output=True, text=True
        )
        seen.add(done.stdout)
    assert len(seen) == 1
