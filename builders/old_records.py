"""Writes a file of records of each version of the tables, for the test that old databases migrate.

A version's file is written once, by the program of that day; afterwards it stays as it is.
Run: python builders/old_records.py VERSION tests/unit/shop/records/old/VERSION.db
"""

from __future__ import annotations

import sqlite3
import sys
from pathlib import Path

from fitwright.shop.records import Where, opening

# Rows as a program of the first version wrote them; later versions add theirs.
ROWS = {
    "0001": """
INSERT INTO trials VALUES
 (1, 1, '2026-03-02', '1 1/8 x 4', 'round tube 1 1/8 x 14 ga', 90, 85.5, '', 'H1', 101.6,
  NULL, NULL, NULL, NULL, '');
INSERT INTO trials VALUES
 (2, 3, '2026-03-02', '1 1/8 x 4', 'round tube 1 1/8 x 14 ga', 94.5, 90, '', 'H1', 101.6,
  500, 290, 268.5, 188.25, 'second');
INSERT INTO readings VALUES
 (1, 1, '2026-03-03', 'Boot rack', 'bend 1 of A1', 90, 90.4, 'deg', 0.1, 'bend A1');
INSERT INTO stock VALUES
 (1, 2, 'round tube 1 1/8 x 14 ga', 787.4, 2, '4.25', 1, 'left from a shelf');
INSERT INTO prices VALUES
 (1, 1, '2026-03-01', 'round tube 1 1/8 x 14 ga', 6096, '38.125', 'Dockside Steel');
INSERT INTO hours VALUES
 (1, 1, '2026-03-03', 'Boot rack', 'bend A1', 'bend', 0.75, 1, 0.5, '');
INSERT INTO purchases VALUES
 (1, 1, '2026-03-01', 'round tube 1 1/8 x 14 ga', 3, '38.00', 6096,
  'Dockside Steel', 'Boot rack');
INSERT INTO quotes VALUES
 (1, 2, '2026-02-20', 'Boot rack', '845.00', 'USD', 'accepted', '702.1', '');
""",
    "0002": """
INSERT INTO trials VALUES
 (1, 1, '2026-11-02', '1 1/8 x 4', 'round tube 1 1/8 x 14 ga', 90, 85.5, '', 'H2', 101.6,
  NULL, NULL, NULL, NULL, '', 1);
INSERT INTO stock VALUES
 (1, 2, 'round tube 1 1/8 x 14 ga', 787.4, 2, '4.25', 1, 'left from a shelf', 'second arm', 'H2');
INSERT INTO built VALUES
 (1, 1, '2026-11-04', 'Boot rack', 2, 1, '');
UPDATE changes SET count = 4;
""",
}


def write(version: str, target: Path) -> None:
    """A file of that version with its rows."""
    target.unlink(missing_ok=True)
    opening.VERSIONS = opening.VERSIONS[: opening.VERSIONS.index(version) + 1]  # type: ignore[assignment]
    place = Where(target.absolute())
    engine = opening.engine_of(place)
    opening.make_ready(engine, place)
    engine.dispose()
    with sqlite3.connect(target) as connection:
        connection.executescript(ROWS[version])
        connection.execute("PRAGMA journal_mode=DELETE")
        connection.execute("VACUUM")
    connection.close()


if __name__ == "__main__":
    write(sys.argv[1], Path(sys.argv[2]))
