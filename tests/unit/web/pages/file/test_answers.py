"""The piece stands beside its parts, or why it cannot be built."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from tests.unit.web.serving import client, some_jobs

BAR = "/jobs/coat-rail"
SCRIPT = {"hx-request": "true"}


@pytest.fixture
def opened(tmp_path: Path) -> Iterator[TestClient]:
    with client(some_jobs(tmp_path, "coat-rail")) as found:
        yield found


def test_the_page_shows_the_piece_and_says_what_x_y_and_z_are(opened: TestClient) -> None:
    page = opened.get(f"{BAR}/file").text
    assert f'src="{BAR}/still.svg?' in page
    assert "x to the right, y to the back, z up" in page


def test_a_part_that_makes_the_piece_impossible_is_told_beside_it(opened: TestClient, tmp_path: Path) -> None:
    assert "cannot be built" not in opened.get(f"{BAR}/file/picture", headers=SCRIPT).text
    file = tmp_path / "jobs" / "coat-rail" / "job.yaml"
    file.write_text(file.read_text().replace("radius: 100", "radius: 900"))
    told = opened.get(f"{BAR}/file/picture", headers=SCRIPT).text
    assert "This cannot be built as it is" in told
    assert "still.svg" not in told
