"""Writing a packet: what goes into the folder, one step after another."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from datetime import date
from importlib.util import find_spec
from pathlib import Path

from fitwright.assess import Assessment
from fitwright.errors import FitwrightError
from fitwright.sheets.drawing import A4, LETTER, Drawing, Paper, to_dxf, to_svg
from fitwright.sheets.lists import as_csv, as_workbook, listings
from fitwright.sheets.packet.contents import head_of, pages_of
from fitwright.sheets.packet.folder import made, write, written
from fitwright.sheets.packet.model import Page
from fitwright.sheets.packet.pages.arranging import arrangement_drawing
from fitwright.sheets.packet.typesetting import typeset
from fitwright.sheets.solids.apart import Apart, begin
from fitwright.sheets.template_drawing import template_drawing

Progress = Callable[[str, float], None]
PAPERS: Mapping[str, Paper] = {"letter": LETTER, "a4": A4}

TITLE = "piece"  # of the STEP file, and the assembly in it
NO_MODELLER = (
    "piece.step is left out: the solid modeller is not installed. To have it: pip install 'fitwright[solids]', "
    "then write the packet again."
)
# share of the whole that is done when a step begins, from what each took for the shipped demo jobs
BEGINS = {
    "the piece": 0.0,
    "loads": 0.01,
    "virtual builds": 0.11,
    "weld order": 0.16,
    "bench": 0.35,
    "arrangement": 0.39,
    "cover and lists": 0.43,
    "cutting sheets": 0.435,
    "bend sheets": 0.44,
    "bench sheet": 0.45,
    "welding, timber, place": 0.5,
    "typesetting": 0.53,
    "drawings": 0.55,
    "lists": 0.64,
    "solids": 0.67,
}


# what a packet writes only for some jobs
OWN = ("bend-*.dxf", "bend-*.svg", "cope-*.dxf", "cope-*.svg", "piece.step")


class PaperError(FitwrightError, ValueError):
    """A paper that packets are not laid out for."""


class Written(list[Path]):
    """The files written, in order; `notes` says in words what was left out and why."""

    notes: tuple[str, ...] = ()


def write_packet(
    assessment: Assessment,
    folder: Path,
    *,
    paper: str | None = None,
    solids: bool = True,
    progress: Progress | None = None,
    made_on: date | None = None,
) -> Written:
    """Write the whole packet into a folder; files of the same names are replaced, each when its new content is whole.

    paper: Letter for inch jobs and A4 for metric ones unless said; solids: the STEP file too, where the modeller is
    installed; progress: told the step under way and the share done; made_on: the date on the sheets, today unless said.

    Raises PaperError for another paper, PacketError where the folder or a file cannot be written, DrawingError for a
    piece that no usual scale brings onto the paper, and what computing the assessment raises.
    """
    chosen = _paper(assessment, paper)
    task = _Task(assessment, made(Path(folder)), progress or _silent, made_on or date.today())
    files = Written(task.files(chosen, solids))
    files.notes = (*task.notes, *_left_from_before(task.folder, files))
    task.progress("done", 1.0)
    return files


def _paper(assessment: Assessment, name: str | None) -> Paper:
    own = "letter" if assessment.job.style.unit == "inch" else "a4"
    chosen = PAPERS.get((name or own).lower())
    if chosen is None:
        raise PaperError(f"{name!r} is not a paper that packets are laid out for: take {' or '.join(PAPERS)}")
    return chosen


def _left_from_before(folder: Path, files: list[Path]) -> list[str]:
    """A packet's files that this one did not write: they tell of parts as they were."""
    old = sorted(file.name for pattern in OWN for file in folder.glob(pattern) if file not in files)
    return [f"{name} is left from an earlier packet: it does not belong to this one." for name in old]


@dataclass
class _Task:
    """One packet on its way into its folder."""

    assessment: Assessment
    folder: Path
    progress: Progress
    made_on: date
    notes: list[str] = field(default_factory=list)
    _reached: float = 0.0

    def files(self, paper: Paper, solids: bool) -> Iterator[Path]:
        """Each file as it is written."""
        self._step("the piece")
        _ = self.assessment.piece
        if solids and find_spec("build123d") is None:
            solids = False
            self.notes.append(NO_MODELLER)
        with begin(self.assessment.piece, self.folder, TITLE, wanted=solids) as apart:
            yield from self._sheets(paper)
            if solids:
                yield self._solids(apart)

    def _sheets(self, paper: Paper) -> Iterator[Path]:
        """Everything but the solids."""
        self._calculations()
        self._step("arrangement")
        whole = arrangement_drawing(self.assessment, paper, self.made_on)
        pages = pages_of(self.assessment, whole, self._step)
        self._step("typesetting")
        # the typesetter works outside the interpreter: drawings and lists are written meanwhile
        with ThreadPoolExecutor(1) as beside:
            pdf = beside.submit(typeset, head_of(self.assessment, paper, self.made_on), pages, self.made_on)
            others = [*self._drawings(whole, pages), *self._lists()]
            yield write(self.folder / "packet.pdf", pdf.result())
        yield from others

    def _calculations(self) -> None:
        """What takes longest, told apart from the drawing of it."""
        self._step("loads")
        _ = self.assessment.findings
        self._step("virtual builds")
        _ = self.assessment.builds
        self._step("weld order")
        self.assessment.weld(self._weld_order)
        self._step("bench")
        self.assessment.set_up(self._set_up)

    def _drawings(self, whole: Drawing, pages: tuple[Page, ...]) -> Iterator[Path]:
        self._step("drawings")
        bent = {f"bend-{page.content['mark']}": page.pictures["part"] for page in pages if page.kind == "bending"}
        style = self.assessment.job.style
        coped = {f"cope-{sheet.name}": template_drawing(sheet, style) for sheet in self.assessment.cope_templates}
        for name, drawing in {"arrangement": whole, **bent, **coped}.items():
            with written(self.folder / f"{name}.dxf") as draft:
                to_dxf(drawing, draft, self.assessment.job.style)
            yield self.folder / f"{name}.dxf"
            yield write(self.folder / f"{name}.svg", to_svg(drawing).encode())

    def _lists(self) -> Iterator[Path]:
        from fitwright.report import report

        self._step("lists")
        lists = listings(self.assessment)
        for listing in lists:
            yield write(self.folder / f"{listing.name}.csv", as_csv(listing).encode())
        yield write(self.folder / "lists.xlsx", as_workbook(lists))
        told = json.dumps(report(self.assessment), indent=2, ensure_ascii=False, default=str)
        yield write(self.folder / "report.json", (told + "\n").encode())

    def _solids(self, apart: Apart) -> Path:
        """The STEP file made meanwhile; made here where it could not be."""
        from fitwright.sheets.solids import write_step

        self._step("solids")
        with written(self.folder / "piece.step") as draft:
            if not apart.into(draft):
                write_step(self.assessment.piece, draft, self._part, TITLE)
        return self.folder / "piece.step"

    def _step(self, name: str) -> None:
        self.progress(name, BEGINS[name.partition(": ")[0]])

    def _weld_order(self, _what: str, done: float) -> bool:
        begun, end = BEGINS["weld order"], BEGINS["bench"]
        self._reached = max(self._reached, begun + (end - begun) * min(done, 1.0))
        self.progress("weld order", self._reached)
        return True

    def _set_up(self, done: int, total: int, name: str) -> None:
        if name:
            begun, end = BEGINS["bench"], BEGINS["arrangement"]
            self.progress(f"bench: {name}", begun + (end - begun) * done / total)

    def _part(self, done: int, total: int, name: str) -> None:
        begun = BEGINS["solids"]
        self.progress(f"solid of {name}", begun + (1.0 - begun) * done / max(total, 1))


def _silent(_step: str, _done: float) -> None:
    """Nobody is told."""
