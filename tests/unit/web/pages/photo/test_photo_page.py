"""The photo's page by its forms, as a browser without scripts sends them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from starlette.testclient import TestClient

from fitwright.job import load_job
from tests.unit.web.serving import BASE, RACK, client, hidden, send, some_jobs

PAGE = f"{RACK}/photo"
PLAIN = "/jobs/coat-rail/photo"


@pytest.fixture
def jobs(tmp_path: Path) -> Path:
    return some_jobs(tmp_path, "drying-rack", "coat-rail")


@pytest.fixture
def opened(jobs: Path) -> Iterator[TestClient]:
    with client(jobs) as found:
        yield found


def a_picture(form: str = "JPEG", **more: object) -> bytes:
    grey = np.tile(np.linspace(0, 255, 640, dtype=np.uint8), (480, 1))
    out = BytesIO()
    Image.fromarray(grey).save(out, form, **more)
    return out.getvalue()


def sent(opened: TestClient, name: str, data: bytes, page: str = PLAIN) -> tuple[int, str]:
    shown = opened.get(page)
    fields = {"token": hidden(shown, "token"), "revision": hidden(shown, "revision")}
    answer = opened.post(f"{page}/picture", data=fields, files={"picture": (name, data)}, headers={"origin": BASE})
    return answer.status_code, answer.text


def test_the_page_says_every_length_with_its_plus_or_minus(opened: TestClient) -> None:
    text = opened.get(PAGE).text
    assert "uprights" in text
    assert re.search(r"± 3/8(&#34;|\")", text)
    assert "Dims that follow, 83 % as large" in text
    assert 'data-spot="left foot"' in text


def test_the_picture_is_sent_once(opened: TestClient) -> None:
    first = opened.get(f"{PAGE}/picture")
    assert first.headers["content-type"] == "image/jpeg"
    with Image.open(BytesIO(first.content)) as shown:
        assert shown.size == (1080, 1440)
    assert opened.get(f"{PAGE}/picture", headers={"if-none-match": first.headers["etag"]}).status_code == 304


def test_the_piece_lies_over_it(opened: TestClient) -> None:
    answer = opened.get(f"{PAGE}/piece.svg")
    assert answer.headers["content-type"].startswith("image/svg+xml")
    assert answer.text.count("M") > 100
    assert opened.get(f"{PAGE}/piece.svg?size=own").text != answer.text


def test_a_mark_moves_by_a_form(opened: TestClient, jobs: Path) -> None:
    answer = send(opened, f"{PAGE}/move", {"spot": "left top", "u": "275", "v": "307.8"}, PAGE)
    assert answer.status_code == 303
    assert answer.headers["location"] == PAGE
    text = (jobs / "drying-rack" / "job.yaml").read_text()
    assert "    left top: [275, 307.8]\n" in text
    assert "# to lay the new rack over it" in text


def test_a_moved_mark_is_measured_before_it_is_kept(opened: TestClient, jobs: Path) -> None:
    before = (jobs / "drying-rack" / "job.yaml").read_text()
    answer = send(opened, f"{PAGE}/moved", {"spot": "left middle", "u": "262.4", "v": "611.6"}, PAGE)
    assert answer.status_code == 200
    assert "36 9/16" not in answer.text
    assert (jobs / "drying-rack" / "job.yaml").read_text() == before
    assert send(opened, f"{PAGE}/moved", {"spot": "nothing", "u": "1", "v": "1"}, PAGE).status_code == 422


def test_marks_are_taken_back_one_after_the_other(opened: TestClient, jobs: Path) -> None:
    file = jobs / "drying-rack" / "job.yaml"
    texts = [file.read_text()]
    for u in ("275", "276"):
        send(opened, f"{PAGE}/move", {"spot": "left top", "u": u, "v": "307.8"}, PAGE)
        texts.append(file.read_text())
    for expected in texts[-2::-1]:
        assert send(opened, f"{PAGE}/undo", {}, PAGE).status_code == 303
        assert file.read_text() == expected
    assert send(opened, f"{PAGE}/undo", {}, PAGE).status_code == 422


def test_edges_planes_known_lengths_and_measures(opened: TestClient, jobs: Path) -> None:
    for what, fields in {
        "edge": {"along": "z", "spots": "900, 500; 905, 900", "snap": "yes"},
        "plane": {"name": "wall", "across": "y", "spots": "900, 500"},
        "known": {
            "name": "ring",
            "kind": "across",
            "way": "z",
            "spots": "joint 3; joint 27",
            "is": "64",
            "within": "1/2",
        },
        "measure": {"name": "over all", "kind": "straight", "way": "x", "spots": "left foot; back tie"},
    }.items():
        assert send(opened, f"{PAGE}/{what}", fields, PAGE).status_code == 303, what
    photo = load_job(jobs / "drying-rack" / "job.yaml").photo
    assert photo is not None
    assert photo.edges[-1].snap
    assert "[900, 500]" in photo.planes["wall"].spots
    assert photo.known["ring"].value == pytest.approx(64 * 25.4)
    assert "over all" in opened.get(PAGE).text
    assert send(opened, f"{PAGE}/remove", {"what": "measures", "name": "over all"}, PAGE).status_code == 303
    assert "over all" not in (jobs / "drying-rack" / "job.yaml").read_text()


@pytest.mark.parametrize(
    ("kind", "spots", "key"),
    [
        ("height", "left foot; bar 2", "height"),
        ("spacing", "ledge 1; ledge 2; ledge 3", "spacing"),
        ("arc", "bend 1; bend 2; bend 3; bend 4; bend 5", "arc"),
        ("tube", "630, 700; 630, 600; 645, 700; 645, 600; right middle", "sides"),
    ],
)
def test_every_kind_of_measure(opened: TestClient, jobs: Path, kind: str, spots: str, key: str) -> None:
    fields = {"name": "one more", "kind": kind, "way": "z", "spots": spots, "plane": "front"}
    assert send(opened, f"{PAGE}/measure", fields, PAGE).status_code == 303
    assert f"one more: {{{key}: " in (jobs / "drying-rack" / "job.yaml").read_text()


@pytest.mark.parametrize(
    ("what", "fields", "said"),
    [
        ("edge", {"along": "z", "spots": "900, 500"}, "1 spots are given"),
        ("edge", {"along": "z", "spots": "here; there"}, "neither a spot"),
        ("measure", {"name": "m", "kind": "volume", "spots": "left foot; bar 2"}, "not a kind of length"),
        ("measure", {"name": " ", "kind": "along", "spots": "left foot; bar 2"}, "give it a name"),
        ("known", {"name": "k", "kind": "along", "way": "z", "spots": "joint 3; joint 27", "is": "long"}, "long"),
        ("move", {"spot": "left foot", "u": "far", "v": "1"}, "two numbers"),
        ("remove", {"what": "edges", "name": "99"}, "no edge 99"),
        ("place", {"spot": "left low", "at": "1, 2"}, "three lengths"),
    ],
)
def test_what_is_not_taken_is_said(
    opened: TestClient, jobs: Path, what: str, fields: dict[str, str], said: str
) -> None:
    before = (jobs / "drying-rack" / "job.yaml").read_text()
    answer = send(opened, f"{PAGE}/{what}", fields, PAGE)
    assert answer.status_code in (404, 422)
    assert said in answer.text
    assert (jobs / "drying-rack" / "job.yaml").read_text() == before


def test_dims_are_taken(opened: TestClient, jobs: Path) -> None:
    file = jobs / "drying-rack" / "job.yaml"
    file.write_text(file.read_text().replace("  height: 74 ", "  height: 71 ").replace("  pitch: 9 ", "  pitch: 8 "))
    assert "Take 74" in opened.get(PAGE).text
    assert send(opened, f"{PAGE}/dims", {"name": "height"}, PAGE).status_code == 303
    assert re.search(r"  height: 74\S*\s+# the photo", file.read_text())
    assert send(opened, f"{PAGE}/dims", {"name": "all"}, PAGE).status_code == 303
    assert load_job(file).dims["pitch"].value == pytest.approx(9 * 25.4)
    assert send(opened, f"{PAGE}/dims", {"name": "all"}, PAGE).status_code == 422


def test_a_dim_is_let_follow(opened: TestClient, jobs: Path) -> None:
    fields = {"name": "stretcher", "from": "lowest - tube * 2", "keep": "height", "weight": "2", "step": "1/4"}
    assert send(opened, f"{PAGE}/follow", fields, PAGE).status_code == 303
    photo = load_job(jobs / "drying-rack" / "job.yaml").photo
    assert photo is not None
    assert photo.dims["stretcher"].keep == "height"
    assert "stretcher" in opened.get(PAGE).text
    answer = send(opened, f"{PAGE}/follow", {"name": "stretcher", "from": "nothing"}, PAGE)
    assert answer.status_code == 422
    assert "is not measured on the photo" in answer.text


def test_where_a_spot_is_on_the_piece(opened: TestClient, jobs: Path) -> None:
    assert send(opened, f"{PAGE}/place", {"spot": "left low", "at": "0, 0, 20"}, PAGE).status_code == 303
    photo = load_job(jobs / "drying-rack" / "job.yaml").photo
    assert photo is not None
    assert photo.spots["left low"].place == pytest.approx((0, 0, 508))


def test_a_picture_is_sent_and_marked(opened: TestClient, jobs: Path) -> None:
    assert "one length on it that is known" in opened.get(PLAIN).text
    assert sent(opened, "Old rail.JPG", a_picture())[0] == 303
    assert (jobs / "coat-rail" / "photos" / "old-rail.jpg").read_bytes() == a_picture()
    assert 'data-wide="640"' in opened.get(PLAIN).text
    assert "nothing is marked" in opened.get(PLAIN).text
    send(opened, f"{PLAIN}/edge", {"along": "x", "spots": "10, 20; 300, 30"}, PLAIN)
    assert load_job(jobs / "coat-rail" / "job.yaml").photo is not None


def test_it_is_shown_upright(opened: TestClient) -> None:
    exif = Image.Exif()
    exif[0x0112] = 6
    assert sent(opened, "turned.jpg", a_picture(exif=exif))[0] == 303
    assert 'data-wide="480"' in opened.get(PLAIN).text
    with Image.open(BytesIO(opened.get(f"{PLAIN}/picture").content)) as shown:
        assert shown.size == (480, 640)


def test_a_copy_of_a_job_has_its_photo(opened: TestClient, jobs: Path) -> None:
    sent(opened, "old.jpg", a_picture())
    answer = send(opened, "/jobs/coat-rail/duplicate", {"name": "Second rail"}, "/")
    assert answer.status_code == 303, answer.text
    assert (jobs / "Second rail" / "photos" / "old.jpg").read_bytes() == a_picture()
    assert 'data-wide="640"' in opened.get("/jobs/Second rail/photo").text


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "not a picture that is read here"),
        (a_picture()[:300], "broken"),
        (b"GIF89a" + bytes(100), "not a picture that is read here"),
    ],
)
def test_what_is_no_picture_is_refused(opened: TestClient, jobs: Path, data: bytes, said: str) -> None:
    code, text = sent(opened, "old.jpg", data)
    assert code == 422
    assert said in text
    assert not (jobs / "coat-rail" / "photos").exists()


def test_an_enormous_picture_is_refused_by_its_heading(opened: TestClient) -> None:
    out = BytesIO()
    Image.new("1", (9000, 9000)).save(out, "PNG")
    code, text = sent(opened, "wide.png", out.getvalue())
    assert code == 422
    assert "9000 x 9000 pixels: save it smaller" in text


def test_a_picture_that_is_gone_is_said(opened: TestClient, jobs: Path) -> None:
    (jobs / "drying-rack" / "old-rack.jpg").unlink()
    text = opened.get(PAGE).text
    assert "does not lie beside the job" in text
    assert "uprights" in text
    assert opened.get(f"{PAGE}/picture").status_code == 404


def test_places_are_moved_onto_the_edge(opened: TestClient) -> None:
    """The floor meets the wall between these two; each is a few pixels off."""
    answer = send(opened, f"{PAGE}/snapped", {"spots": "622, 700; 622, 580"}, PAGE)
    (u, _), (other, _) = answer.json()
    assert 624 < u < 631
    assert 624 < other < 631
    assert send(opened, f"{PAGE}/snapped", {"spots": "10, 10"}, PAGE).json() == [[10.0, 10.0]]
