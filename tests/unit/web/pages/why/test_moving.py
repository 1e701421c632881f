"""What a check hangs on is found by trying it."""

from __future__ import annotations

from pathlib import Path

from fitwright.job import load_job
from fitwright.web.pages.why.moved import move_row
from fitwright.web.pages.why.moving import inputs_of, key_of, moves_of
from tests.demos import EXAMPLES, assessed

SMALL = """\
job: {name: Rail, unit: mm}
brief: {use: coats, loads: {rail: 20 kg}}
space: {opening: {width: 1000}, clear: {left: 20, right: 20}}
dims: {width: 900, spare: 5}
stock: {frame: round tube 32 x 2 mm}
parts:
  rail: {stock: frame, path: [[0, 0, 1500], [width, 0, 1500]], ends: free}
"""


def test_the_numbers_of_a_file_are_found_with_their_lines() -> None:
    found = {source.path: source for source in inputs_of(SMALL)}
    assert found["dims", "width"].line == 4
    assert found["space", "clear", "left"].text == "20"
    assert ("parts", "rail", "path", 0, 2) in found
    assert ("stock", "frame") not in found
    assert ("brief", "use") not in found


def test_a_gap_hangs_on_the_width_the_opening_and_the_clearance_and_on_nothing_else(tmp_path: Path) -> None:
    from fitwright.assess import assess
    from fitwright.shop import default_shop

    file = tmp_path / "job.yaml"
    file.write_text(SMALL)
    assessment = assess(load_job(file), default_shop("mm"))
    told: list[str] = []

    def tell(step: str, share: float) -> bool:
        told.append(step)
        return True

    moves = moves_of(SMALL)(assessment, tell)
    gap = next(one for one in assessment.findings if one.check == "gap on the left")
    found = {move.source.path: move for move in moves[key_of(gap)]}
    assert {("dims", "width"), ("space", "opening", "width"), ("space", "clear", "left")} <= set(found)
    assert ("dims", "spare") not in found
    assert found["dims", "width"].more_margin == -0.5  # one millimetre wider, half of it on each side
    assert found["space", "clear", "left"].more_margin < 0 < found["space", "opening", "width"].more_margin
    assert told[0] == "the checks as they are"


def test_a_row_leads_to_the_dim_or_to_the_line() -> None:
    assessment = assessed("drying-rack")
    text = (EXAMPLES / "drying-rack" / "job.yaml").read_text()
    finding = next(one for one in assessment.findings if one.check == "gap on the left")
    from fitwright.web.pages.why.moving import Move

    rows = {
        source.path: move_row(Move(source, "more", 10.0, -1.0, -2.0), finding, assessment.job)
        for source in inputs_of(text)
    }
    assert rows["dims", "width"].to == "/why/dim/width"
    assert rows["dims", "width"].way == "worse"
    clear = rows["space", "clear", "left"]
    assert text.splitlines()[int(clear.to.rpartition("=")[2]) - 1].strip().startswith("clear:")
    assert clear.name == "space, clear, left"
