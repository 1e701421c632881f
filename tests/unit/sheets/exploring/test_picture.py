"""Price against stiffness against weight, as a picture."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from collections.abc import Sequence

import pytest

from fitwright.pricing.exploring import Figures, Point, Tried
from fitwright.sheets.exploring import Frame, explored_svg, spots_of
from fitwright.sheets.exploring.axes import axis_for
from fitwright.units import Style
from tests.stand import figures

STYLE, SVG = Style.metric(), "{http://www.w3.org/2000/svg}"


def rows(*told: Figures | None) -> list[Tried]:
    return [Tried(Point(number, f"way <{number}>", ()), one, "" if one else "no") for number, one in enumerate(told, 1)]


MANY = rows(
    figures(net=1000, give=0.5, mass=10), figures(net=1100, give=0.5, mass=10), figures(net=1200, give=0.2, mass=14),
    figures(net=900, give=0.9, mass=6, verdict="fails"), None, figures(net=None),
)  # fmt: skip


def drawn(told: Sequence[Tried], frame: Frame) -> ET.Element:
    return ET.fromstring(explored_svg(told, STYLE, "EUR", frame))


def test_dearer_is_further_right_and_stiffer_is_lower() -> None:
    spots = {spot.number: spot for spot in spots_of(MANY, STYLE, Frame()).spots}
    assert spots[4].x < spots[1].x < spots[2].x < spots[3].x
    assert spots[3].y > spots[1].y > spots[4].y
    assert spots[3].radius > spots[1].radius > spots[4].radius


def test_what_is_beaten_by_none_is_told_without_colour() -> None:
    signs = {spot.number: spot.sign for spot in spots_of(MANY, STYLE, Frame()).spots}
    assert signs == {1: "marked", 2: "beaten", 3: "marked", 4: "fails"}
    texts = [one.text or "" for one in drawn(MANY, Frame()).iter(f"{SVG}text")]
    assert any(text.startswith("1 cheapest") for text in texts)
    assert any(text.startswith("3 stiffest") for text in texts)
    assert "2 not drawn: see the table" in texts


@pytest.mark.parametrize("frame", [Frame(title="wide"), Frame(380, 520, all_numbers=True, link=lambda n: f"/a/{n}")])
def test_everything_stays_on_the_picture(frame: Frame) -> None:
    made = drawn(MANY, frame)
    for one in made.iter(f"{SVG}text"):
        wide = 0.61 * float(one.get("font-size", "12")) * len(one.text or "")
        start = {"start": 0.0, "middle": -wide / 2, "end": -wide}[one.get("text-anchor", "start")]
        assert float(one.get("x", "0")) + start >= -1
        assert float(one.get("x", "0")) + start + wide <= frame.wide + 1, one.text
    for one in made.iter(f"{SVG}circle"):
        assert 0 <= float(one.get("cx", "0")) <= frame.wide
        assert 0 <= float(one.get("cy", "0")) <= frame.high


def test_a_point_leads_to_its_job_and_words_are_escaped() -> None:
    made = drawn(MANY, Frame(link=lambda number: f"/jobs/x/{number}?a=1&b=2"))
    assert {one.get("href") for one in made.iter(f"{SVG}a")} == {f"/jobs/x/{n}?a=1&b=2" for n in (1, 2, 3, 4)}
    assert any("way <1>" in (one.text or "") for one in made.iter(f"{SVG}title"))


def test_with_nothing_worked_out_it_says_so() -> None:
    texts = [one.text for one in drawn(rows(None), Frame()).iter(f"{SVG}text")]
    assert "nothing could be worked out: see the table" in texts


def test_one_way_alone() -> None:
    assert len(spots_of(rows(figures()), STYLE, Frame()).spots) == 1


def test_no_two_labels_meet() -> None:
    crowd = rows(*(figures(net=1000 + 3 * n, give=0.5 - 0.001 * n, mass=10 + n % 3) for n in range(12)))
    labels = [
        one for one in drawn(crowd, Frame(all_numbers=True)).iter(f"{SVG}text")
        if (one.text or "").isdigit() and one.get("text-anchor") == "start"
    ]  # fmt: skip
    places = {(one.get("x"), one.get("y")) for one in labels}
    assert len(labels) == len(places) == 12


def test_round_ticks() -> None:
    axis = axis_for([1480.0, 3120.0], 0.0, 500.0)
    assert axis.ticks == (1500.0, 2000.0, 2500.0, 3000.0)
    assert axis.at(axis.low) == 0.0
    assert axis.at(axis.high) == 500.0
    assert axis_for([0.0, 0.0], 0.0, 10.0).ticks
