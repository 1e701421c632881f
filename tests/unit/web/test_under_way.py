"""What takes seconds tells how far it is, and is never answered for a state of the job that is past."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from fitwright.findings import Finding
from fitwright.web import under_way
from fitwright.web.desk import Desk, Work
from fitwright.web.folder import JobsFolder
from tests.unit.web.serving import RACK, client, some_jobs

SCRIPT = {"hx-request": "true"}


@pytest.fixture
def jobs(tmp_path: Path) -> Path:
    return some_jobs(tmp_path)


@pytest.fixture
def opened(jobs: Path) -> Iterator[TestClient]:
    with client(jobs) as found:
        yield found


def narrower(jobs: Path) -> None:
    """Another program changes the file."""
    file = jobs / "drying-rack" / "job.yaml"
    file.write_text(file.read_text().replace("width: 31 1/2", "width: 31"))


def test_progress_asks_again_for_the_same_state_only(opened: TestClient, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(under_way, "BETWEEN", 0.0)
    answer = opened.get(f"{RACK}/findings/longer", headers=SCRIPT)
    assert "<progress" in answer.text
    assert f"/findings/longer?of={answer.headers['x-revision']}" in answer.text


def test_a_part_of_a_page_has_its_tab_for_a_browser_without_scripts(opened: TestClient) -> None:
    page = opened.get(f"{RACK}/quote/client").text
    assert f'href="{RACK}/quote" aria-current="page"' in page
    assert "<title>drying-rack: Quote" in page
    assert f'href="{RACK}/quote">The whole page' in page
    assert "Open the PDF" in page


def test_progress_without_scripts_is_a_page_that_can_be_asked_again(
    opened: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(under_way, "LONG", 0.0)
    page = opened.get(f"{RACK}/way-in/answer").text
    assert "<progress" in page
    assert f'href="{RACK}/way-in" aria-current="page"' in page
    assert f'href="{RACK}/way-in/answer">Ask again' in page


def test_what_is_asked_of_a_past_state_is_not_answered(opened: TestClient, jobs: Path) -> None:
    before = opened.get(f"{RACK}/dims", headers=SCRIPT).headers["x-revision"]
    narrower(jobs)
    late = opened.get(f"{RACK}/findings/longer?of={before}", headers=SCRIPT)
    assert (late.status_code, late.text) == (204, "")


def test_an_answer_that_a_change_has_overtaken_is_not_sent(
    opened: TestClient, jobs: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    computed = Desk.findings

    async def overtaken(desk: Desk, work: Work) -> tuple[Finding, ...]:
        found = await computed(desk, work)
        if "31 1/2" in work.state.text:
            narrower(jobs)
            desk.work(JobsFolder(jobs).job("drying-rack"))
        return found

    monkeypatch.setattr(Desk, "findings", overtaken)
    assert opened.get(f"{RACK}/findings", headers=SCRIPT).status_code == 204
    again = opened.get(f"{RACK}/findings", headers=SCRIPT)
    assert again.status_code == 200
    assert "gap on the left" in again.text


def test_a_page_asked_for_whole_is_asked_for_again_when_it_is_overtaken(
    opened: TestClient, jobs: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    computed = Desk.scene

    async def overtaken(desk: Desk, work: Work) -> bytes:
        if "31 1/2" in work.state.text:
            narrower(jobs)
            desk.work(JobsFolder(jobs).job("drying-rack"))
        return await computed(desk, work)

    monkeypatch.setattr(Desk, "scene", overtaken)
    answer = opened.get(f"{RACK}?whole=1", headers={"sec-fetch-mode": "navigate"})
    assert answer.status_code == 303
    assert answer.headers["location"].endswith(f"{RACK}?whole=1")
