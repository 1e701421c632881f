"""The load cases, and what they do to the frame."""

from __future__ import annotations

import numpy as np

from fitwright.assess import Assessment
from fitwright.checks.frame_results import FrameResults
from fitwright.checks.strength import Stresses, allowed_stress, governing_case, stresses
from fitwright.report.figures import Json, number, vector


def loads(assessment: Assessment) -> Json | None:
    """Cases, the governing one and every member where it is stressed most; null for a piece that is no frame."""
    results, job = assessment.frame, assessment.job
    if results is None:
        return None
    found, push = stresses(results), results.cases.push
    return {
        "governing": results.cases.cases[governing_case(job, results)].name,
        "push": {"force_n": number(push.force), "height_mm": number(push.height), "basis": push.basis},
        "buckling_load_factor": number(results.load_factor),
        "magnified": number(results.magnified),
        "cases": [_case(results, found, case) for case in range(len(results.cases.cases))],
        "members": [_member(assessment, results, found, member) for member in results.framed.lines],
    }


def _case(results: FrameResults, found: Stresses, number_of: int) -> Json:
    """One case; without numbers where the piece goes over."""
    case, tips = results.cases.cases[number_of], bool(results.tips[number_of])
    moved = np.linalg.norm(results.framed.moved_ends(results.displacements[:, :, number_of]), axis=2)
    return {
        "name": case.name,
        "kind": case.kind,
        "basis": case.basis,
        "feet_grip": case.grips,
        "tips": tips,
        "movement_mm": None if tips else number(float(moved.max())),
        "stress_mpa": None if tips else number(float(found.values[:, :, number_of].max())),
        "feet": [
            {"name": foot.name, "press_n": number(press), "lift_mm": number(lift)}
            for foot, press, lift in zip(
                results.framed.feet, results.press[:, number_of], results.lift[:, number_of], strict=True
            )
        ],
    }


def _member(assessment: Assessment, results: FrameResults, found: Stresses, index: int) -> Json:
    framed = results.framed
    stress, element, station, case = found.worst(framed.elements_of[index])
    name = framed.piece.members[index].name
    allowed = allowed_stress(framed.stocks[index].material, assessment.job.brief.rules.safety)
    start, finish = framed.model.ends[element]
    return {
        "name": name,
        "mark": framed.piece.mark_of.get(name),
        "stress_mpa": number(stress),
        "allowed_mpa": None if allowed is None else number(allowed[0]),
        "case": results.cases.cases[case].name,
        "at_mm": vector(start + (finish - start) * station / 2),
    }
