"""The code is long, compared as a whole, and cannot be tried often."""

from __future__ import annotations

from pathlib import Path

from fitwright.web.guard import Pairing
from fitwright.web.guard.pairing import FROM_ALL, FROM_ONE, LETTERS, WINDOW
from tests.unit.web.serving import BASE, client, some_jobs


def test_a_code_is_read_without_confusion_and_accepted_as_it_is_typed() -> None:
    pairing = Pairing()
    assert len(pairing.code) == 8
    assert not set("01OIL") & set(LETTERS) - {"L"}
    assert pairing.fits("a", pairing.shown.lower())


def test_one_address_tries_five_times_a_minute() -> None:
    now = [0.0]
    pairing = Pairing("ABCDEFGH", clock=lambda: now[0])
    for _ in range(FROM_ONE):
        assert pairing.wait("a") == 0
        assert not pairing.fits("a", "WRONG")
    assert 0 < pairing.wait("a") <= WINDOW
    assert pairing.wait("b") == 0
    now[0] = WINDOW + 1
    assert pairing.wait("a") == 0


def test_many_addresses_together_are_held_back_too() -> None:
    pairing = Pairing("ABCDEFGH", clock=lambda: 0.0)
    for number in range(FROM_ALL):
        pairing.fits(f"address {number}", "WRONG")
    assert pairing.wait("another") > 0


def test_a_device_gets_in_only_with_the_code(tmp_path: Path) -> None:
    pairing = Pairing("ABCDEFGH")
    with client(some_jobs(tmp_path), pairing) as opened:
        for path in ("/", "/jobs/drying-rack", "/jobs/drying-rack/mesh", "/interface.json"):
            assert opened.get(path).headers["location"] == "/pair"
        assert opened.post("/jobs", data={"name": "x", "starter": "coat-rail"}).status_code == 303
        assert not (tmp_path / "jobs" / "x").exists()
        assert opened.post("/pair", data={"code": "ABCDEFGX"}, headers={"origin": BASE}).status_code == 403
        assert opened.get("/").status_code == 303
        answer = opened.post("/pair", data={"code": "abcd efgh"}, headers={"origin": BASE})
        assert "HttpOnly; SameSite=Lax" in answer.headers["set-cookie"]
        assert opened.get("/").status_code == 200


def test_too_many_attempts_are_told_to_wait(tmp_path: Path) -> None:
    with client(some_jobs(tmp_path), Pairing("ABCDEFGH")) as opened:
        codes = [opened.post("/pair", data={"code": "X"}, headers={"origin": BASE}).status_code for _ in range(6)]
        assert codes == [403] * 5 + [429]
        answer = opened.post("/pair", data={"code": "ABCDEFGH"}, headers={"origin": BASE})
        assert answer.status_code == 429
