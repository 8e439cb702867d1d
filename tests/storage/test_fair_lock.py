"""Writers on SQLite are served in the order of asking."""

from __future__ import annotations

import threading
import time

from service.storage.engine import FairLock


def test_waiting_writers_are_served_in_the_order_of_asking() -> None:
    lock, served = FairLock(), list[int]()

    def write(n: int) -> None:
        with lock:
            served.append(n)

    threads = [threading.Thread(target=write, args=(n,)) for n in range(8)]
    with lock:
        for n, thread in enumerate(threads, 1):
            thread.start()
            while len(lock._waiting) < n:
                time.sleep(0.001)
    for thread in threads:
        thread.join(5)
    assert served == list(range(8))


def test_only_one_writer_is_inside_at_a_time() -> None:
    lock, inside, most = FairLock(), [0], [0]

    def write() -> None:
        for _ in range(300):
            with lock:
                inside[0] += 1
                most[0] = max(most[0], inside[0])
                inside[0] -= 1

    threads = [threading.Thread(target=write) for _ in range(6)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(10)
    assert most == [1]
    with lock:
        pass


def test_a_writer_that_fails_lets_the_next_in() -> None:
    lock = FairLock()
    try:
        with lock:
            raise RuntimeError
    except RuntimeError:
        pass
    with lock:
        assert lock._taken
