"""The pages over HTTP: what is accepted, refused and told."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from fitwright.job import load_job
from tests.unit.web.serving import BASE, RACK, client, hidden, send, some_jobs

SCRIPT = {"hx-request": "true"}


@pytest.fixture
def jobs(tmp_path: Path) -> Path:
    return some_jobs(tmp_path)


@pytest.fixture
def opened(jobs: Path) -> Iterator[TestClient]:
    with client(jobs) as found:
        yield found


def width(jobs: Path) -> str:
    return load_job(jobs / "drying-rack" / "job.yaml").dims["width"].text


def test_the_pages_of_a_job_are_there(opened: TestClient) -> None:
    for path in ("/", RACK, f"{RACK}/sheets", f"{RACK}/file", f"{RACK}/versions", f"{RACK}/why/dim/width", "/archived"):
        answer = opened.get(path)
        assert answer.status_code == 200, path
        assert "script-src 'self'" in answer.headers["content-security-policy"]


def test_the_bar_at_the_top_says_once_where_one_is(opened: TestClient) -> None:
    for path, mark in (("/", 'href="/" aria-current="page"'), ("/shop", 'href="/shop" aria-current="page"')):
        page = opened.get(path).text
        assert mark in page
        assert page.count("aria-current", 0, page.index("</header>")) == 1
        assert '<h1 class="unseen">' in page
    assert 'href="/shop" aria-current="true"' in opened.get("/shop/stock").text


def test_a_form_without_scripts_changes_a_dim_and_leads_back(opened: TestClient, jobs: Path) -> None:
    answer = send(opened, f"{RACK}/dims", {"name": "width", "was": "31 1/2", "text": "31 1/4"})
    assert answer.status_code == 303
    assert answer.headers["location"] == f"{RACK}?whole=1#dim-width"
    assert width(jobs) == "31 1/4"


def test_a_step_moves_what_is_in_the_form(opened: TestClient, jobs: Path) -> None:
    send(opened, f"{RACK}/dims", {"name": "width", "was": "31 1/2", "text": "31 1/2", "step": "down"})
    assert width(jobs) == "31 7/16"


def test_a_script_is_told_the_new_revision(opened: TestClient) -> None:
    before = hidden(opened.get(RACK), "revision")
    answer = send(opened, f"{RACK}/dims", {"name": "width", "was": "31 1/2", "text": "31"}, **SCRIPT)
    assert answer.status_code == 200
    assert '"job-changed"' in answer.headers["hx-trigger"]
    assert before not in answer.headers["hx-trigger"]
    assert "31&#34;" in answer.text


def test_a_stale_change_answers_409_with_both_values(opened: TestClient, jobs: Path) -> None:
    old = hidden(opened.get(RACK), "revision")
    send(opened, f"{RACK}/dims", {"name": "width", "was": "31 1/2", "text": "31"})
    answer = send(opened, f"{RACK}/dims", {"name": "width", "was": "31 1/2", "text": "30", "revision": old}, **SCRIPT)
    assert answer.status_code == 409
    assert "<b>31</b>" in answer.text
    assert "<b>30</b>" in answer.text
    assert width(jobs) == "31"


def test_what_is_typed_over_another_value_is_a_conflict_even_on_the_newest_revision(opened: TestClient) -> None:
    answer = send(opened, f"{RACK}/dims", {"name": "width", "was": "29", "text": "30"}, **SCRIPT)
    assert answer.status_code == 409


@pytest.mark.parametrize("text", ["31 +", "nothing", "width", "", "1/0", "9" * 5000, "a\nb: c", "{x: 1}"])
def test_what_is_no_length_is_not_taken(opened: TestClient, jobs: Path, text: str) -> None:
    answer = send(opened, f"{RACK}/dims", {"name": "width", "was": "31 1/2", "text": text}, **SCRIPT)
    assert answer.status_code == 422
    assert "Not saved" in answer.text
    assert width(jobs) == "31 1/2"


def test_the_scene_is_sent_once_for_a_revision(opened: TestClient) -> None:
    first = opened.get(f"{RACK}/mesh")
    assert first.content[:4] == b"FWS1"
    again = opened.get(f"{RACK}/mesh", headers={"if-none-match": first.headers["etag"]})
    assert again.status_code == 304


def test_a_piece_that_cannot_be_built_is_told_and_can_be_mended(opened: TestClient, jobs: Path) -> None:
    file = jobs / "drying-rack" / "job.yaml"
    file.write_text(file.read_text().replace("radius: 4", "radius: 40"))
    page = opened.get(f"{RACK}?whole=1")
    assert page.status_code == 200
    assert "cannot be built" in page.text
    assert 'id="text-width"' in page.text
    assert opened.get(f"{RACK}/mesh").status_code == 422


def test_a_file_with_mistakes_has_its_text_page_with_their_lines(opened: TestClient, jobs: Path) -> None:
    file = jobs / "drying-rack" / "job.yaml"
    file.write_text(file.read_text().replace("stock: frame", "stock: fraem"))
    page = opened.get(f"{RACK}/file")
    assert page.status_code == 200
    assert "did you mean frame?" in page.text
    assert opened.get("/").status_code == 200


def test_every_change_leaves_a_version_that_can_be_restored(opened: TestClient, jobs: Path) -> None:
    before = (jobs / "drying-rack" / "job.yaml").read_text()
    send(opened, f"{RACK}/dims", {"name": "width", "was": "31 1/2", "text": "30"})
    version = next((jobs / "drying-rack" / ".versions").glob("*.yaml")).stem
    answer = send(opened, f"{RACK}/versions/{version}/restore", {}, page=f"{RACK}/versions/{version}")
    assert answer.status_code == 303
    assert (jobs / "drying-rack" / "job.yaml").read_text() == before


def test_text_with_mistakes_is_not_saved_and_kept_in_the_form(opened: TestClient, jobs: Path) -> None:
    wrong = "job: {name: x, unit: inch}\nparts: {a: {stock: none}}\n"
    answer = send(opened, f"{RACK}/file", {"text": wrong}, page=f"{RACK}/file")
    assert answer.status_code == 422
    assert "parts: {a: {stock: none}}" in answer.text
    assert width(jobs) == "31 1/2"


def test_the_editor_is_told_line_and_column(opened: TestClient) -> None:
    answer = send(opened, f"{RACK}/file/check", {"text": "job: {name: x, unit: inch}\ndims: {a: b + 1}\n"})
    assert (2, 11) in {(one["line"], one["column"]) for one in answer.json()}


def test_parts_are_added_changed_and_removed_by_form(opened: TestClient, jobs: Path) -> None:
    file, page = jobs / "drying-rack" / "job.yaml", f"{RACK}/file"
    send(opened, f"{RACK}/parts/add", {"name": "peg rail", "kind": "member"}, page=page)
    assert "peg rail:" in file.read_text()
    send(opened, f"{RACK}/parts/change", {"part": "hoop", "value.radius": "3 1/2"}, page=page)
    assert "radius: 3 1/2" in file.read_text()
    assert "# one bent member, made twice" in file.read_text()
    send(opened, f"{RACK}/parts/remove", {"part": "peg rail"}, page=page)
    assert "peg rail:" not in file.read_text()


@pytest.mark.parametrize("name", ["", "a/b", "../up", ".hidden", "archived", "x" * 81, "drying-rack", "Drying-Rack"])
def test_names_that_cannot_be_folders_are_not_taken(opened: TestClient, jobs: Path, name: str) -> None:
    answer = send(opened, "/jobs", {"name": name, "starter": "coat-rail"}, page="/")
    assert answer.status_code == 422
    assert sorted(path.name for path in jobs.iterdir()) == [".fitwright", "drying-rack"]


@pytest.mark.parametrize(
    "path",
    [ "/jobs/%2e%2e", "/jobs/nothing", f"{RACK}/files/..%2Fjob.yaml", f"{RACK}/versions/..%2F..%2Fjob",
     "/static/..%2Ficon.svg", f"{RACK}/why/part/ZZ9", f"{RACK}/why/finding/a:b:c"],
)  # fmt: skip
def test_what_is_not_there_is_404(opened: TestClient, path: str) -> None:
    assert opened.get(path).status_code == 404


def test_links_out_of_the_folder_are_not_followed(opened: TestClient, jobs: Path, tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere"
    (jobs / "drying-rack").rename(elsewhere)
    (jobs / "linked").symlink_to(elsewhere)
    (jobs / "inner").mkdir()
    (jobs / "inner" / "job.yaml").symlink_to(elsewhere / "job.yaml")
    assert opened.get("/jobs/linked").status_code == 404
    assert opened.get("/jobs/inner").status_code == 404
    assert "linked" not in opened.get("/").text


def test_a_change_from_another_site_is_refused(opened: TestClient, jobs: Path) -> None:
    fields = {"name": "width", "was": "31 1/2", "text": "30"}
    assert send(opened, f"{RACK}/dims", fields, origin="http://evil.test").status_code == 403
    assert send(opened, f"{RACK}/dims", fields, origin="null").status_code == 403
    assert send(opened, f"{RACK}/dims", fields, **{"sec-fetch-site": "cross-site"}).status_code == 403
    assert width(jobs) == "31 1/2"


def test_a_form_without_its_token_is_refused(opened: TestClient, jobs: Path) -> None:
    fields = {"name": "width", "was": "31 1/2", "text": "30", "revision": hidden(opened.get(RACK), "revision")}
    assert opened.post(f"{RACK}/dims", data=fields, headers={"origin": BASE}).status_code == 403
    assert opened.post(f"{RACK}/dims", data={**fields, "token": "0" * 64}, headers={"origin": BASE}).status_code == 403
    assert width(jobs) == "31 1/2"


def test_a_host_that_is_not_ours_is_refused(opened: TestClient) -> None:
    """A name that somebody made point to this machine (DNS rebinding) is in no list of ours."""
    assert opened.get("/", headers={"host": "evil.test"}).status_code == 400
    assert opened.get("/", headers={"host": "bench.test:9999"}).status_code == 400


def test_what_is_too_large_or_no_form_is_refused(opened: TestClient) -> None:
    assert send(opened, f"{RACK}/file", {"text": "x" * 2_100_000}).status_code == 413
    answer = opened.post(f"{RACK}/dims", content=b"{}", headers={"content-type": "application/json", "origin": BASE})
    assert answer.status_code == 400


def test_sessions_outlive_the_server(jobs: Path) -> None:
    with client(jobs) as first:
        page = first.get(RACK)
        cookies = dict(first.cookies)
    with client(jobs) as second:
        second.cookies.update(cookies)
        fields = {name: hidden(page, name) for name in ("token", "revision")}
        fields |= {"name": "width", "was": "31 1/2", "text": "30"}
        assert second.post(f"{RACK}/dims", data=fields, headers={"origin": BASE}).status_code == 303
