"""Why a dim is what it is."""

from __future__ import annotations

from urllib.parse import quote

from fitwright.job.arithmetic import ArithmeticFault, names_in, read
from fitwright.job.model import Job
from fitwright.web.dependents import users
from fitwright.web.errors import NotThere
from fitwright.web.pages.why.reason import Input, Reason
from fitwright.web.words import comes_to, plainly


def reason_of_dim(job: Job, text: str, name: str) -> Reason:
    """A dim with its arithmetic; text: the job file's. Raises NotThere."""
    dim = job.dims.get(name)
    if dim is None:
        raise NotThere(f"there is no dim called {name[:60]!r} in this job")
    value = comes_to(dim, job.style)
    put_in = with_values(job, dim.text)
    steps = [f"{plainly(name)} = {dim.text}"]
    if put_in != dim.text:
        steps.append(f"= {put_in}")
    steps.append(f"= {value}")
    moves = [place_input(job, kind, what) for kind, what in users(text).get(name, [])]
    basis = "arithmetic of the job file" if put_in != dim.text else "written in the job file"
    rule, inputs = f"{basis}, line {dim.line}", tuple(inputs_in(job, dim.text))
    return Reason(plainly(name), value, tuple(steps), rule, inputs, moves=tuple(moves))


def inputs_in(job: Job, text: str) -> list[Input]:
    """What a piece of arithmetic names."""
    formula = read(text)
    if isinstance(formula, ArithmeticFault):
        return []
    return [_named(job, name) for name in dict.fromkeys(found.name for found in names_in(formula))]


def dim_input(job: Job, name: str) -> Input:
    """A dim as something that leads on to its own reason."""
    return Input(plainly(name), comes_to(job.dims[name], job.style), f"/why/dim/{quote(name)}")


def place_input(job: Job, kind: str, name: str) -> Input:
    """A place in the job file that uses a dim, as something that leads there."""
    if kind == "dim" and name in job.dims:
        return dim_input(job, name)
    lines = {part.name: part.where.line for part in job.parts}
    line = f"?line={lines[name]}" if kind == "part" and name in lines else ""
    return Input(plainly(name), "part" if kind == "part" else "", f"/file{line}")


def with_values(job: Job, text: str) -> str:
    """The arithmetic with values in the place of names."""
    formula = read(text)
    if isinstance(formula, ArithmeticFault):
        return text
    said = text
    for found in sorted(names_in(formula), key=lambda name: name.at, reverse=True):
        value = _named(job, found.name).value
        said = said[: found.at] + value + said[found.at + len(found.name) :]
    return said


def _named(job: Job, name: str) -> Input:
    if name in job.dims:
        return dim_input(job, name)
    short, _, size = name.partition(".")
    stock = job.stock[short]
    return Input(f"{size} of {short}: {stock.label}", job.style.length(stock.section.dimensions[size]), "/file")
