from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from fitwright.job.readings import parse_of
from fitwright.making.plan import (
    SET_IN,
    BendLine,
    Bent,
    CheckLine,
    CoatGiven,
    FinishGiven,
    Fitted,
    Given,
    Line,
    PanelsGiven,
    PlanError,
    Rate,
    SawSetting,
    SetUp,
    Step,
    TrimLine,
    Welded,
    build_steps,
    schedule_of,
    usual_rates,
)
from fitwright.making.plan.cautions import cautions_at
from fitwright.units import Style

PRIMER = CoatGiven(True, "primer", "primer", 1, 1.5, "0.2 l", "84 µm", 16.0, 6.0, 24.0, False)
ENAMEL = CoatGiven(True, "enamel", "top", 2, 1.5, "0.2 l", "105 µm", 24.0, 9.0, 72.0, False)
OIL = CoatGiven(False, "linseed oil", "oil", 1, 2.0, "0.2 l", "", 24.0, 24.0, 168.0, True)
FINISH = FinishGiven(
    (), (), (80, 120), (80, 120, 180), 1.5, 2.0, ("Degrease",), (PRIMER, ENAMEL, OIL), "", 0, "dry", "Finish"
)
GIVEN = Given(
    buy=(Line("round tube", "6 m", 2),),
    saw=(
        SawSetting("tube", 2000.0, "square", ("A1",), 2, False),
        SawSetting("tube", 350.0, "square", ("B1",), 2, False),
        SawSetting("board", 520.0, "square", ("C1",), 5, True),
    ),
    bent=(
        Bent("A1", "hoop", "tube", 2, 2000.0, (BendLine(1, 700.0, "", 1.6, 1.57, "32 x 100"),),
             (TrimLine("start", 25.0, 650.0, "the back of bend 1"),), "Bend sheet: hoop"),
    ),
    welded=Welded((("fillet", 4),), 12, 8, 60.0, (), (), "Weld order"),
    panels=(PanelsGiven("shelf", 1, 5, 0, 12, "4 x 35", 22.5, ("Drill the battens.",), "Timber: shelf"),),
    finish=FINISH,
    fitted=(Fitted("caster", "caster", 4, "tap M8"),),
    true=frozenset({"rags"}),
    mass=12.0,
    sizes=(("width", 600.0),),
)  # fmt: skip


def built(given: Given = GIVEN) -> tuple[Step, ...]:
    return build_steps(given, Style.metric())


def kinds(given: Given = GIVEN) -> list[str]:
    return [step.kind for step in built(given)]


def test_the_tube_is_turned_in_the_words_of_its_bend_sheet() -> None:
    bends = (BendLine(1, 700.0, "", 1.6, 1.57, "32 x 100"), BendLine(2, 900.0, "↺ 90.0°", 1.6, 1.57, "32 x 100"))
    there = replace(GIVEN, bent=(replace(GIVEN.bent[0], bends=bends),))
    plain, bent = (next(step for step in built(given) if step.kind == "bend") for given in (GIVEN, there))
    assert [number.what.partition(",")[2] for number in bent.numbers[1:]] == [" bend to", " turn ↺ 90.0°, bend to"]
    assert any("↺ the other way" in words for words in bent.setup)
    assert not any("↺" in words for words in plain.setup)


def test_a_frame_too_heavy_for_one_is_turned_over_by_two() -> None:
    said = {
        step.kind for step in built(replace(GIVEN, true=frozenset({"heavy frame"})))
        if any("turn it over" in caution.words for caution in step.cautions)
    }  # fmt: skip
    assert said == {"tack", "weld"}
    assert not any("turn it over" in caution.words for step in built() for caution in step.cautions)


def test_the_build_is_in_order() -> None:
    assert kinds() == [
        "buy", "saw", "trial", "bend", "trim", "set up", "tack", "weld", "grind", "drill", "timber", "sand", "screw",
        "clean", "prime", "paint", "oil", "assemble", "deliver",
    ]  # fmt: skip


def test_every_step_but_the_first_waits_for_one_before_it() -> None:
    for step in built()[1:]:
        assert step.after
        assert all(one.number < step.number for one in step.after)


def test_paint_waits_by_the_clock() -> None:
    paint = next(step for step in built() if step.kind == "paint")
    assert [(one.wait, one.why) for one in paint.after] == [(16 * 60, "primer to dry")]


def test_timber_waits_for_the_frame_only_where_shelves_are_fitted_to_it() -> None:
    steps = {step.kind: step for step in built()}
    assert [one.number for one in steps["timber"].after] == [steps["buy"].number]
    fitted = {step.kind: step for step in built(replace(GIVEN, care=("fit shelves",)))}
    assert fitted["weld"].number in [one.number for one in fitted["timber"].after]
    assert "Measure between the uprights" in fitted["timber"].setup[0]


def test_numbers_are_those_of_the_trades() -> None:
    bend = next(step for step in built() if step.kind == "bend")
    assert [(one.what, one.value) for one in bend.numbers] == [
        ("blank", "2000.0 mm"), ("bend 1: mark at 700.0 mm, bend to", "91.7°"),
    ]  # fmt: skip
    assert [(one.what, one.wanted) for one in bend.readings] == [("bend 1", "90.0°")]


def test_time_follows_the_rate() -> None:
    rates = {"saw": Rate(10.0, 2.0, "cut", setting=5.0)}
    own = next(step for step in build_steps(GIVEN, Style.metric(), rates) if step.kind == "saw")
    assert own.minutes == 10 + 2 * 5 + 4 * 2
    with pytest.raises(PlanError, match="no kind of step"):
        build_steps(GIVEN, Style.metric(), {"sawing": Rate(1.0, 1.0, "cut")})


def test_every_rate_has_a_basis_and_every_step_a_time() -> None:
    assert all(rate.basis for rate in usual_rates().values())
    assert all(step.minutes > 0 for step in built())


@pytest.mark.parametrize(
    ("kind", "word", "said"),
    [
        ("weld", "galvanised", "Zinc"),
        ("weld", "stainless", "chromium"),
        ("tack", "stainless", "chromium"),
        ("tack", "blocks", "Blocks are wood"),
        ("oil", "rags", "Oily rags"),
        ("send", "dipped", "vent and drain holes"),
        ("deliver", "heavy", "two people"),
        ("deliver", "anchored", "wires and pipes"),
    ],
)
def test_a_caution_stands_where_it_matters_and_only_there(kind: str, word: str, said: str) -> None:
    assert any(said in one.words for one in cautions_at(kind, frozenset({word})))
    assert not any(said in one.words for one in cautions_at(kind, frozenset()))
    assert not any(said in one.words for one in cautions_at("buy", frozenset({word})))


@pytest.mark.parametrize(
    ("kind", "said"),
    [
        ("weld", "Solvent, then arc"),
        ("grind", "Face shield"),
        ("paint", "dew point"),
        ("drill", "Clamp the work"),
        ("screw", "Clamp the work"),
    ],
)
def test_cautions_that_always_stand(kind: str, said: str) -> None:
    assert any(said in one.words for one in cautions_at(kind, frozenset()))


def test_anchors_go_in_at_the_place() -> None:
    anchored = replace(GIVEN, fitted=(Fitted("anchor M8 x 60", "anchor", 4, ""), Fitted("foot", "foot", 2, "")))
    steps = {step.kind: step for step in built(anchored)}
    assert [number.what for number in steps["assemble"].numbers] == ["foot", "shelf"]
    assert [number.what for number in steps["deliver"].numbers] == ["weight", "anchor M8 x 60"]
    without = {step.kind: step for step in built(replace(GIVEN, fitted=anchored.fitted[1:]))}
    assert steps["deliver"].minutes > without["deliver"].minutes


def test_the_spacer_is_as_thick_as_the_order_of_work_has_it() -> None:
    """A gap of 5/32 in: to the job's own sixteenth it would read another size than on the timber sheet."""
    panel = replace(GIVEN.panels[0], gap=5 / 32 * 25.4)
    step = next(s for s in build_steps(replace(GIVEN, panels=(panel,)), Style.inch()) if s.kind == "screw")
    assert step.numbers[0].value == '5/32"'


def test_what_is_set_in_the_metal_is_not_put_on_again() -> None:
    insert = Fitted("tube insert", "fitting", 4, SET_IN)
    steps = {step.kind: step for step in built(replace(GIVEN, fitted=(insert, Fitted("caster", "caster", 4, ""))))}
    assert [number.what for number in steps["drill"].numbers] == ["tube insert: set in the metal"]
    assert [number.what for number in steps["assemble"].numbers] == ["caster", "shelf"]


def test_timber_is_made_while_the_paint_dries() -> None:
    schedule = schedule_of(built(), begin=date(2027, 1, 4), due=date(2027, 1, 29))
    assert schedule.proven
    prime = next(one for one in schedule.steps if one.step.kind == "prime")
    timber = {one.step.number for one in schedule.steps if one.step.kind in ("timber", "sand", "screw", "oil")}
    assert timber & set(prime.meanwhile)
    assert schedule.margin == (date(2027, 1, 29) - schedule.finish_date).days if schedule.finish_date else False


def test_a_piece_of_one_tube_has_a_plan_too() -> None:
    bare = Given(buy=(Line("tube", "6 m", 1),), saw=(SawSetting("tube", 700.0, "square", ("A1",), 1, False),))
    assert kinds(bare) == ["buy", "saw", "assemble", "deliver"]
    assert schedule_of(built(bare)).days == 1


ASKING = replace(
    GIVEN,
    bent=(
        Bent("A1", "hoop", "tube", 2, 2000.0,
             (BendLine(1, 700.0, "", 1.6, 1.57, "32 x 100", 2), BendLine(2, 900.0, "", 1.6, 1.0, "32 x 100", 1)),
             (TrimLine("start", 25.0, 650.0, "the back of bend 1", 3), TrimLine("finish", 0.0, 640.0, "", 1)),
             "Bend sheet: hoop", ("hoop 1", "hoop 2"), 600.0),
    ),
    set_ups=(SetUp("side, 1", ("Lay it.",), (CheckLine("diagonal, a to b", 900.0, 1.5, "diagonal 1 of side, 1"),),
                   False, "", 4, "Bench: side, 1"),),
    panels=(replace(GIVEN.panels[0], openings=(("shelf 1", None), ("shelf 2", None))),),
    care=("fit shelves",),
    frame=(("width", 598.0),),
    feet=4,
    gaps=(("left", 12.0),),
)  # fmt: skip


def asks(kind: str) -> list[tuple[str, float | None, float | None]]:
    return [(one.of, one.asked, one.tolerance) for step in built(ASKING) if step.kind == kind for one in step.asks]


def test_steps_ask_for_readings_in_the_words_of_the_job_file() -> None:
    for step in built(ASKING):
        for one in step.asks:
            found = parse_of(one.of)
            assert found is not None
            assert str(found) == one.of
            assert found.angle == one.angle


def test_bends_are_asked_for_as_drawn_on_every_copy() -> None:
    assert [(of, asked) for of, asked, _ in asks("bend")] == [
        ("bend 1 of hoop 1", 1.0), ("bend 2 of hoop 1", 1.57), ("spread at the ends of hoop 1", 600.0),
        ("bend 1 of hoop 2", 1.0), ("bend 2 of hoop 2", 1.57), ("spread at the ends of hoop 2", 600.0),
    ]  # fmt: skip
    assert [of for of, _, _ in asks("trim")] == ["leg 3 of hoop 1", "leg 3 of hoop 2"]


def test_what_else_is_asked_for() -> None:
    assert asks("saw") == [("cut length of A1", 2000.0, 0.5), ("cut length of B1", 350.0, 0.5)]
    assert asks("tack") == [("diagonal 1 of side, 1", 900.0, 1.5)]
    assert asks("weld")[0] == ("width of the piece", 598.0, None)
    assert [of for of, _, _ in asks("timber")] == ["opening for shelf 1", "opening for shelf 2"]
    assert [of for of, _, _ in asks("assemble")] == [f"height of foot {k}" for k in (1, 2, 3, 4)]
    assert asks("deliver") == [("gap left", 12.0, None)]
    assert asks("paint") == [("paint thickness", None, None)]


def test_the_name_of_a_step_stays_when_another_one_goes() -> None:
    keys = [step.key for step in built(ASKING)]
    assert len(set(keys)) == len(keys)
    assert {"buy", "saw tube", "bend A1", "tack side, 1", "weld", "prime the metal, coat 1"} <= set(keys)
    fewer = [step.key for step in built(replace(ASKING, saw=ASKING.saw[:1], fitted=()))]
    assert set(fewer) < set(keys)


def test_blocks_are_sawn_before_the_first_set_up() -> None:
    with_blocks = replace(ASKING, blocks=(SawSetting("pine", 200.0, "square", ("S1",), 2, True),))
    steps = {step.key: step for step in built(with_blocks)}
    sawn = steps["timber blocks for the bench"]
    assert [(one.what, one.ticks) for one in sawn.numbers] == [("S1, pine", 2)]
    assert sawn.number in [one.number for one in steps["set up side, 1"].after]
    assert "timber blocks for the bench" not in [step.key for step in built(ASKING)]


@pytest.mark.parametrize(("tolerance", "told"), [(15.9, "15.5 mm"), (0.9, "0.5 mm"), (0.1, "0.5 mm")])
def test_a_step_allows_no_more_than_the_bench_sheet(tolerance: float, told: str) -> None:
    """Rounded down to what a tape shows: to the nearest half millimetre 15.9 would allow 16."""
    line = CheckLine("width", 850.0, tolerance)
    given = replace(GIVEN, set_ups=(SetUp("side", ("Lay A1.",), (line,), False, "", 4, "Bench: side"),))
    tack = next(step for step in built(given) if step.kind == "tack")
    assert [one.wanted for one in tack.readings] == [f"850.0 mm ± {told}"]


def test_as_many_trial_bends_as_pay() -> None:
    one, three = (next(step for step in built(given) if step.kind == "trial") for given in (
        GIVEN, replace(GIVEN, trials={("32 x 100", "tube"): 3}),
    ))  # fmt: skip
    assert (one.numbers[0].ticks, three.numbers[0].ticks) == (1, 3)
    assert len(three.readings) == 3
    assert three.minutes > one.minutes
