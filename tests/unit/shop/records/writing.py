"""A program that writes records until it is killed, for the tests. Each word on its input begins it once more.

It forks for each, so that the libraries are loaded once. `pairs`: an offcut and what was built, in one change, again
and again; prints their numbers once they are kept. `counting`: reads the only offcut, waits until a file is there,
then adds one to its count so many times.
"""

from __future__ import annotations

import os
import sys
import time
from dataclasses import replace
from pathlib import Path

from fitwright.shop.records import Built, ChangedMeanwhile, OnHand, where
from fitwright.shop.records.keeping import open_records
from tests.unit.shop.records.samples import DAY, OFFCUT


def say(*words: object) -> None:
    """One line at once: what is said has been kept."""
    os.write(1, f"{' '.join(map(str, words))}\n".encode())


def pairs(place: str) -> None:
    """Write pairs for ever."""
    with open_records(where(place)) as records:
        k = 0
        while True:
            k += 1
            name = f"{os.getpid()}-{k}"
            with records.changing() as change:
                offcut = change.add(replace(OFFCUT, note=name))
                built = change.add(Built(DAY, name, 1, 1))
            say("kept", offcut.id, built.id)


def counting(place: str, times: int, gate: Path) -> None:
    """Count up, and say how often somebody else was quicker; the first reading is held until the gate is there."""
    refused, done = 0, 0
    with open_records(where(place)) as records:
        (read,) = records.all(OnHand)
        say("read")
        while not gate.exists():
            time.sleep(0.005)
        while done < times:
            try:
                records.replace(replace(read, count=read.count + 1))
                done += 1
            except ChangedMeanwhile:
                refused += 1
            (read,) = records.all(OnHand)
    say("refused", refused)


def main() -> None:
    """Begin again for each line of the input."""
    place = sys.argv[1]
    with open_records(where(place)) as records:  # so that each begins with everything loaded
        records.all(OnHand)
    for line in sys.stdin:
        words = line.split()
        child = os.fork()
        if child == 0:
            say("pid", os.getpid())
            pairs(place) if words[0] == "pairs" else counting(place, int(words[1]), Path(words[2]))
            os._exit(0)
        os.waitpid(child, 0)
        say("ended")


if __name__ == "__main__":
    main()
