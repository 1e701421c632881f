"""Advice with numbers that work: the next heavier stock is tried on the frame before it is recommended."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace

from fitwright.checks.cases import load_cases
from fitwright.checks.frame_results import FrameResults, solve_cases
from fitwright.checks.heavier import heavier
from fitwright.findings import Finding, Verdict
from fitwright.job.model import Job
from fitwright.mechanics.framing import Framed, with_stock
from fitwright.mechanics.mechanism import Mechanism
from fitwright.stock import Stock
from fitwright.units import Style

Check = Callable[[Job, FrameResults], list[Finding]]
LEAST_STEP = 0.01
MEASURED = ("mm", "MPa")
"""Units whose numbers are told in the job's own."""
BAD = (Verdict.FAILS, Verdict.TIGHT)
ELSE = {
    "sag": "put a support under the middle of the span",
    "sway sideways": "add a diagonal, a fastened back panel, or a low rail between the uprights",
    "sway front to back": "add a diagonal, a fastened side panel, or a low rail between the uprights",
    "buckling of the whole frame": "add a diagonal or a low rail between the uprights",
    "throat stress": "add a gusset that spreads it",
    "wall of the tube at the tee": "add a gusset, or take a wider branch",
}
SHARE_LOAD = "lower the load, shorten the span, or add a member that shares it"


@dataclass
class _Trials:
    """The frame with one stock changed, each solved when first asked for; and the findings of each check on it."""

    job: Job
    framed: Framed
    solved: dict[tuple[str, str], FrameResults | None] = field(default_factory=dict)
    known: dict[tuple[str, str, Check], list[Finding]] = field(default_factory=dict)

    def findings(self, check: Check, stock: Stock) -> list[Finding]:
        """What a check finds with this stock in place of that of the same key; nothing where it does not stand."""
        name = stock.key, stock.label, check
        if name not in self.known:
            results = self._results(stock)
            self.known[name] = [] if results is None else check(self.job, results)
        return self.known[name]

    def _results(self, stock: Stock) -> FrameResults | None:
        name = stock.key, stock.label
        if name not in self.solved:
            changed = with_stock(self.framed, stock.key, stock)
            try:
                self.solved[name] = solve_cases(changed, load_cases(changed, self.job))
            except Mechanism:
                self.solved[name] = None
        return self.solved[name]


def advised(job: Job, results: FrameResults, checks: Sequence[Check]) -> list[Finding]:
    """The findings of all checks, those that are tight or fail with advice that was tried.

    For each, the stocks of the parts it names are made heavier one at a time, walls first, until it holds; of the
    changes that cure it the one that adds least mass is told. What only touches the wall is exact; for a larger outside
    size the frame keeps its lines, so that the true gain is a little different. Each check has to list its findings in
    an order that depends on the piece alone and not on its stock.
    """
    trials = _Trials(job, results.framed)
    found = []
    for check in checks:
        plain = check(job, results)
        found += [_advise(trials, results.framed, check, finding, i) for i, finding in enumerate(plain)]
    return found


def _advise(trials: _Trials, framed: Framed, check: Check, finding: Finding, index: int) -> Finding:
    if finding.verdict not in BAD or finding.advice:
        return finding
    tried = [_cure(trials, check, finding, index, stock) for stock in _stocks(framed, finding)]
    cures = [cure for cure in tried if cure is not None]
    if cures:
        return replace(finding, advice=min(cures, key=lambda cure: cure[0])[1])
    return replace(finding, advice=ELSE.get(finding.check, SHARE_LOAD))


def _cure(trials: _Trials, check: Check, finding: Finding, index: int, stock: Stock) -> tuple[float, str] | None:
    """Added mass [kg] and words of the first heavier stock with which the finding holds.

    A stock whose next step hardly moves the value is not what decides it, and is not tried further.
    """
    before = finding
    for more in heavier(stock):
        changed = trials.findings(check, more)
        same = index < len(changed) and changed[index].check == finding.check
        if same and changed[index].verdict is Verdict.HOLDS:
            added = _length(trials.framed, stock.key) * (more.mass_per_m - stock.mass_per_m) / 1000
            return added, _words(stock, more, finding, changed[index], added, trials.job.style)
        if same and not _moved(before, changed[index]):
            return None
        before = changed[index] if same else before
    return None


def _moved(before: Finding, after: Finding) -> bool:
    """Whether a step changed the value by more than a hundredth of its limit."""
    if before.value is None or after.value is None or before.limit is None:
        return True
    return abs(after.value - before.value) > LEAST_STEP * abs(before.limit)


def _length(framed: Framed, key: str) -> float:
    """Length of all members of a stock [mm]."""
    return float(sum(m.cut_length for m in framed.piece.members if m.stock.key == key))


def _words(stock: Stock, more: Stock, finding: Finding, cured: Finding, added: float, style: Style) -> str:
    told = [_figures(value, finding.unit, style) for value in (finding.value, cured.value, cured.limit)]
    unit = f" {finding.unit}" if finding.unit and finding.unit not in MEASURED else ""
    return (
        f"{more.label} instead of {stock.label} for {stock.key} brings this from {told[0]} to {told[1]}{unit} "
        f"(limit {told[2]}) and adds {style.weight(added)}"
    )


def _figures(value: float | None, unit: str, style: Style) -> str:
    """A length or a stress in the job's own unit, anything else to three figures at most."""
    if value is None:
        return "?"
    if unit in MEASURED:
        return style.figure(value) if unit == "mm" else style.stress(value)
    return f"{value:.0f}" if abs(value) >= 100 else f"{value:.1f}" if abs(value) >= 10 else f"{value:.2f}"


def _stocks(framed: Framed, finding: Finding) -> list[Stock]:
    """The stocks of the parts that a finding is about; of all parts for the piece as a whole."""
    members = [framed.piece.members[k] for k in framed.lines]
    words = finding.subject
    about = [m for m in members if words.startswith(m.part) or f" {m.part} (" in words or words.endswith(f" {m.part}")]
    about = about or [m for m in members if m.stock.label in words] or members
    return list({m.stock.key: framed.stocks[m.index] for m in about if m.stock.key}.values())
