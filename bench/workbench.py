"""What a maker waits for at the workbench, measured in a real browser against a real server on loopback.

Figures: the first page from cold and its bytes, as they are sent; from a key to the new picture, to the new numbers in
words and to the new findings, for the drying rack and for a job of 300 parts; frames a second while orbiting it; the
share of a core that an open page takes when nobody does anything. Beside what the clock says stands the server's own
processor time, since other programs may be running.

Run: `python bench/workbench.py [changes]`
"""

from __future__ import annotations

import shutil
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from statistics import median

import psutil
from playwright.sync_api import Browser, Page, sync_playwright

sys.path.insert(0, str(Path(__file__).parent.parent))

from tests.browser.running import CHROMIUM, FLAGS, Server
from tests.demos import EXAMPLES
from tests.many_parts import trellis

SCREEN = {"width": 1440, "height": 900}
CHANGES = 9
MANY = 300
IDLE_S = 5.0
WAIT_MS = 60_000

WATCH = """() => {
  window.times = {};
  const note = (what) => { window.times[what] ??= performance.now() - window.began; };
  const watch = (id, what, options) =>
    new MutationObserver(() => note(what)).observe(document.getElementById(id), options);
  watch('canvas', 'picture', {attributes: true, attributeFilter: ['data-drawn']});
  watch('in-words', 'words', {childList: true});
  watch('findings-list', 'findings', {childList: true});
  document.addEventListener('keydown', (event) => {
    if (event.key !== 'Enter') return;
    window.began = performance.now();
    window.times = {};
  }, true);
}"""
ORBIT = """async () => {
  const canvas = document.getElementById('canvas');
  const box = canvas.getBoundingClientRect();
  const at = (x, type) => canvas.dispatchEvent(new PointerEvent(type, {pointerId: 1, bubbles: true, button: 0,
    buttons: 1, clientX: box.x + x, clientY: box.y + 200, pointerType: 'mouse'}));
  canvas.setPointerCapture = () => {};
  at(100, 'pointerdown');
  const frames = [];
  for (let k = 0; k < 40; k++) {
    const began = performance.now();
    at(100 + 4 * k, 'pointermove');
    await new Promise(requestAnimationFrame);
    await new Promise((then) => setTimeout(then));
    frames.push(performance.now() - began);
  }
  at(260, 'pointerup');
  return frames.slice(5);
}"""


@contextmanager
def served() -> Iterator[Server]:
    """A server on the rack and on a job of many parts."""
    with tempfile.TemporaryDirectory() as folder:
        jobs = Path(folder) / "jobs"
        shutil.copytree(EXAMPLES / "drying-rack", jobs / "drying-rack")
        (jobs / "trellis").mkdir()
        (jobs / "trellis" / "job.yaml").write_text(trellis(MANY))
        server = Server(jobs).start()
        try:
            yield server
        finally:
            server.kill()


def first_page(browser: Browser) -> None:
    """From cold: a server that has just been started, and a browser that has nothing of it."""
    with served() as server:
        page = browser.new_context(viewport=SCREEN, base_url=server.address).new_page()  # type: ignore[arg-type]
        sizes: list[int] = []
        page.on("response", lambda answer: sizes.append(int(answer.headers.get("content-length") or 0)))
        page.goto("/jobs/drying-rack")
        page.wait_for_selector("#canvas[data-drawn]")
        drawn = page.evaluate("performance.now()")
        shown = page.evaluate("performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? NaN")
        print(f"first page: words after {shown:.0f} ms, the picture after {drawn:.0f} ms, {sum(sizes) / 1000:.0f} kB")


def changes(page: Page, server: Server, job: str, dim: str, values: tuple[str, str], count: int) -> None:
    """Change a dim to and fro."""
    page.goto(f"/jobs/{job}")
    page.wait_for_selector("#canvas[data-drawn]", timeout=WAIT_MS)
    page.wait_for_selector(".finding", timeout=WAIT_MS, state="attached")
    page.evaluate(WATCH)
    found: dict[str, list[float]] = {"picture": [], "words": [], "findings": [], "processor": []}
    for k in range(count + 1):
        before = _spent(server)
        page.fill(f"#text-{dim}", f"{values[k % 2]} + {k}/128")
        page.press(f"#text-{dim}", "Enter")
        page.wait_for_function("() => ['picture', 'words', 'findings'].every((what) => what in times)", timeout=WAIT_MS)
        after = _spent(server)
        if k:  # the first change reads what the later ones have
            times = page.evaluate("times")
            for what in ("picture", "words", "findings"):
                found[what].append(times[what])
            found["processor"].append(1000 * (after - before))
    told = ", ".join(f"{what} {median(all_):.0f} ms (worst {max(all_):.0f})" for what, all_ in found.items())
    print(f"{job}: from key to {told}")


def orbiting(page: Page) -> None:
    frames = page.evaluate(ORBIT)
    print(f"orbiting {MANY} parts: {1000 / median(frames):.0f} frames a second, the slowest took {max(frames):.0f} ms")


def idle(page: Page, server: Server) -> None:
    page.goto("/jobs/drying-rack")
    page.wait_for_selector("#canvas[data-drawn]")
    page.wait_for_selector("#findings:not(:has([data-progress]))", timeout=WAIT_MS)
    before = _spent(server)
    time.sleep(IDLE_S)
    print(f"an open page: {100 * (_spent(server) - before) / IDLE_S:.1f} % of a core on the server's side")


def _spent(server: Server) -> float:
    """Processor time of the server alone [s], without the processes that compute aside."""
    times = psutil.Process(server.pid).cpu_times()
    return float(times.user + times.system)


def main() -> None:
    count = int(sys.argv[1]) if len(sys.argv) > 1 else CHANGES
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=list(FLAGS))
        first_page(browser)
        with served() as server:
            page = browser.new_context(viewport=SCREEN, base_url=server.address).new_page()  # type: ignore[arg-type]
            time.sleep(2)  # what a server reads ahead of the first change
            changes(page, server, "drying-rack", "width", ("31", "30"), count)
            changes(page, server, "trellis", "height", ("1800", "1830"), count)
            orbiting(page)
            idle(page, server)
        browser.close()


if __name__ == "__main__":
    main()
