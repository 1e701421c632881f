from __future__ import annotations

from decimal import Decimal

import pytest

from fitwright.job import JobFileError, parse_job
from fitwright.job.model import HardwareSpec

FILE = """job: {name: Test, unit: mm}
stock:
  tube: round tube 30 x 2
  angle: angle 30 x 30 x 3
  flat: flat 40 x 5
  board: board 20 x 95 oak
  ply: plywood 18 mm birch
dims: {width: 800, depth: 400, height: 1800, shelves: 3}
"""


def hardware(keys: str) -> HardwareSpec:
    """The hardware of some keys."""
    spec = parse_job(f"{FILE}parts: {{part: {{{keys}}}}}\n").parts[0]
    assert isinstance(spec, HardwareSpec)
    return spec


def told(keys: str) -> str:
    """What is wrong with hardware of some keys, when one thing is."""
    with pytest.raises(JobFileError) as error:
        hardware(keys)
    (mistake,) = error.value.mistakes
    return mistake.what


def test_a_caster_with_all_that_is_known_of_it() -> None:
    spec = hardware(
        "caster: {wheel: 75, width: 32, height: 100, lead: 30, rated: 100 kg, swivel: true, brake: no, thread: M10}, "
        "at: [0, 0, 100], mass: 0.6 kg, price: 12.50"
    )
    assert (spec.kind, spec.at, spec.each, spec.label) == ("caster", ((0, 0, 100),), 1, "caster 75.0 mm")
    assert spec.properties == {
        "wheel": 75,
        "width": 32,
        "height": 100,
        "lead": 30,
        "rated": pytest.approx(980.665),  # 100 kg at standard gravity, ISO 80000-3
        "swivel": True,
        "brake": False,
        "thread": "M10",
    }
    assert (spec.mass, spec.price) == (0.6, Decimal("12.50"))


def test_a_screw_by_its_size_alone_is_only_bought() -> None:
    spec = hardware("screw: '#8 x 1 1/4', count: shelves * 8")
    assert (spec.label, spec.at, spec.each, spec.mass, spec.price) == ("screw #8 x 1 1/4", (), 24, 0, None)
    assert spec.properties == {"size": "#8 x 1 1/4"}


def test_several_places() -> None:
    spec = hardware("foot: {height: 20, diameter: 1 in}, at: [[0, 0, 20], [width, 0, 20]]")
    assert spec.at == ((0, 0, 20), (800, 0, 20))
    assert spec.label == "foot 25.5 mm"


def test_a_label_as_said_and_a_fitting_by_its_name() -> None:
    assert hardware("fitting: coat hook, at: [0, 0, 0]").label == "coat hook"
    assert hardware("bolt: {thread: M6, label: stove bolt}").label == "stove bolt"


@pytest.mark.parametrize(
    ("keys", "says"),
    [
        ("caster: {height: 100}", "at is missing: a caster is placed by the point on top"),
        ("caster: {wheel: 75}, at: [0, 0, 0]", "height is missing"),
        ("caster: {height: 0}, at: [0, 0, 0]", "more than 0.0 mm"),
        ("caster: {height: 9, rated: 100}, at: [0, 0, 0]", "has no unit: write it as 40 lb, 250 N or 25 kg"),
        ("screw: a, mass: 3", "has no unit: write it as 12 lb or 5.5 kg"),
        ("screw: a, mass: 3 furlongs", "furlongs"),
        ("screw: a, price: cheap", "not an amount of money"),
        ("screw: a, count: 0", "1 to 10000 is accepted"),
        ("screw: a, count: 2 mm", "is a length; a plain number belongs here"),
    ],
)
def test_what_hardware_cannot_be(keys: str, says: str) -> None:
    assert says in told(keys)
