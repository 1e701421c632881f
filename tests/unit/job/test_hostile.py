"""Files that mean harm: each gets a clear error within 300 MB; `bench/hostile.py` times them."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

import fitwright

# A deadline against reading without end, generous so that a busy machine does not fail the test.
SECONDS = 20.0
MOST_MB = 300

LOADER = """
import json, pathlib, resource, signal, sys
from fitwright.job import JobFileError, load_job

def peak_mb():
    # On Linux the peak of rusage is that of the process which started this one, if that was larger; VmHWM is our own.
    status = pathlib.Path("/proc/self/status")
    if status.exists():
        return next(int(line.split()[1]) / 1024 for line in status.read_text().splitlines() if line.startswith("VmHWM"))
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / (1024 if sys.platform != "darwin" else 2**20)

for path in sys.argv[2:]:
    signal.setitimer(signal.ITIMER_VIRTUAL, float(sys.argv[1]))
    try:
        load_job(path)
        said = ""
    except JobFileError as error:
        said = str(error)[:20000]
    signal.setitimer(signal.ITIMER_VIRTUAL, 0)
    print(json.dumps({"path": path, "said": said, "mb": peak_mb()}), flush=True)
"""
"""Loads files one after another; the timer's signal ends the process at the file that takes longer than it may."""

HEAD = "job: {name: a, unit: mm}\nstock: {t: round tube 30 x 2}\n"
PARTS = "parts: {a: {stock: t, path: [[0, 0, 0], [0, 0, 100]]}}\n"


def laughs() -> str:
    layers = ["a0: &a0 [lol, lol, lol, lol, lol, lol, lol, lol, lol]"]
    layers += [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]" for n in range(1, 12)]
    return "\n".join(layers) + "\n"


def aliased(point: str) -> str:
    """As many paths of as many points as a file may hold."""
    path = f"[{', '.join([point] * 200)}]"
    return f"parts:\n  p: {{stock: t, path: &p {path}}}\n" + "".join(
        f"  p{n}: {{stock: t, path: *p}}\n" for n in range(16)
    )


def dims(text: str) -> str:
    return f"{HEAD}{PARTS}dims: {{x: {text}}}\n"


def part(text: str) -> str:
    return f"{HEAD}parts: {{a: {{stock: t, path: [[0, 0, 0], [0, 0, 100]], {text}}}}}\n"


HOSTILE: dict[str, tuple[Callable[[], str | bytes], str]] = {
    "aliases that blow up": (laughs, "more than 15,000 values"),
    "an alias of itself": (lambda: "job: &a [*a]\n", "not marked"),
    "10 MB of nesting": (lambda: "[" * 10_000_000, "at most 500,000"),
    "nesting that fits": (lambda: "\n".join("[" * 1000 for _ in range(400)), "more than 24 deep"),
    "nesting by indent": (lambda: "".join(" " * n + "a:\n" for n in range(900)), "more than 24 deep"),
    "nesting by dashes": (lambda: "- " * 1900, "more than 24 deep"),
    "question marks": (lambda: "? " * 1900, "single word"),
    "one endless line": (lambda: "a: " + "!" * 450_000, "characters; at most 4,000"),
    "many values": (lambda: "a:\n" + "- 1\n" * 110_000, "more than 15,000 values"),
    "many exclamation marks": (lambda: ("!" * 3900 + "\n") * 120, "tag"),
    "many comments": (lambda: "# no\n" * 90_000, "is empty"),
    "a scalar of many lines": (lambda: "a: " + "x\n  " * 120_000, '"a" is not a key'),
    "a huge number": (lambda: dims("9" * 200), "200 digits"),
    "a number with an exponent": (lambda: dims("1e999999"), "write numbers out"),
    "a number too large": (lambda: dims("999999999999999 * 999999999999999"), "larger than"),
    "a version too long": (lambda: "%YAML 1." + "1" * 3900 + "\n---\na: 1\n", "begins with %"),
    "endless arithmetic": (lambda: dims("+".join(["1"] * 1500)), "at most 200"),
    "a megabyte of arithmetic": (lambda: dims("1+" * 500_000 + "1"), "at most 500,000"),
    "arithmetic over lines": (lambda: f"{HEAD}{PARTS}dims:\n  x: " + "1 +\n    " * 60_000 + "1\n", "at most 200"),
    "deep brackets": (lambda: dims("(" * 95 + "1" + ")" * 95), "more than 40 deep"),
    "many signs": (lambda: dims("1 " + "-" * 150 + "1"), "more than 40 deep"),
    "a long circle": (
        lambda: f"{HEAD}{PARTS}dims:\n" + "".join(f"  d{n}: d{(n + 1) % 500}\n" for n in range(500)),
        "round in a circle",
    ),
    "a long chain that doubles": (
        lambda: f"{HEAD}{PARTS}dims:\n  d0: 2\n" + "".join(f"  d{n}: d{n - 1} * d{n - 1}\n" for n in range(1, 500)),
        "larger than",
    ),
    "not UTF-8": (lambda: b"job: {name: caf\xe9}\n", "not UTF-8"),
    "UTF-16": (lambda: HEAD.encode("utf-16"), "not UTF-8"),
    "NUL bytes": (lambda: b"job: \x00\x00\x00\n", "control character"),
    "only NUL bytes": (lambda: b"\x00" * 400_000, "control character"),
    "a tab": (lambda: "job:\n\tname: a\n", "a tab begins the line"),
    "an object": (lambda: 'job: !!python/object/apply:os.system ["true"]\n', "tag"),
    "a scalar object": (lambda: "job: !!python/name:os.system\n", "tag"),
    "nothing": (lambda: "", "is empty"),
    "two documents": (lambda: f"{HEAD}{PARTS}---\n{HEAD}", "second document"),
    "a list": (lambda: "- 1\n- 2\n", "made of sections"),
    "many copies": (lambda: part("repeat: {x: {every: 1, count: 100000}}"), "1 to 1000"),
    "a grid of many copies": (
        lambda: part("repeat: {x: {every: 1, count: 1000}, y: {every: 1, count: 1000}}"),
        "1,000,000 copies",
    ),
    "many parts": (lambda: HEAD + "parts:\n" + "".join(f"  p{n}: 1\n" for n in range(600)), "at most 500"),
    "many points": (
        lambda: f"{HEAD}parts:\n  a:\n    stock: t\n    path:\n" + "    - [0, 0, 1]\n" * 900,
        "at most 200",
    ),
    "many mistakes": (
        lambda: (
            HEAD + "parts:\n" + "".join(f"  p{n}: {{stock: x{n}, path: [[y, 0, 0], [1, z, 0]]}}\n" for n in range(480))
        ),
        "more",
    ),
    "long arithmetic through aliases": (
        lambda: f"{HEAD}dims: {{a: &a '({'1+' * 90}1)*1mm*1mm'}}\n{aliased('[*a, *a, *a]')}",
        "is an area",
    ),
    "wrong arithmetic through aliases": (
        lambda: f"{HEAD}dims: {{a: &a '{'1+' * 90}(1'}}\n{aliased('[*a, *a, *a]')}",
        "without its )",
    ),
    "long arithmetic, each another": (
        lambda: f"{HEAD}{PARTS}dims:\n" + "".join(f"  d{n}: {n}{'+1' * 90}\n" for n in range(499)) + "  x: y\n",
        '"y" is not a dim',
    ),
    "unknown names among many dims": (
        lambda: (
            f"{HEAD}dims:\n"
            + "".join(f"  name_{n}: 1\n" for n in range(500))
            + "parts:\n"
            + "".join(f"  p{n}: {{stock: t, path: [[nome_{n}, mane_{n}, 0], [naem_{n}, 0, 1]]}}\n" for n in range(500))
        ),
        "and 61 more",
    ),
    "unknown dims in dims": (
        lambda: f"{HEAD}{PARTS}dims:\n" + "".join(f"  name_{n}: nome_{n}\n" for n in range(500)),
        "is not a dim",
    ),
    "unknown keys": (
        lambda: f"{HEAD}parts:\n  a:\n    stock: t\n" + "".join(f"    paht{n}: 1\n" for n in range(9000)),
        "is not a key here",
    ),
    "parts of no kind": (
        lambda: (
            f"{HEAD}parts:\n"
            + "".join(f"  p{n}: {{{', '.join(f'castor{n}_{k}: 1' for k in range(27))}}}\n" for n in range(500))
        ),
        "is not a key here; did you mean caster?",
    ),
    "many stocks": (lambda: "stock:\n" + "".join(f"  s{n}: round tube 30 x 2\n" for n in range(9000)), "at most 100"),
    "many dims": (lambda: "dims:\n" + "".join(f"  s{n}: 1\n" for n in range(9000)), "at most 500"),
    "many loads": (
        lambda: f"{HEAD}{PARTS}brief:\n  loads:\n" + "".join(f"    p{n}: 1 lb\n" for n in range(9000)),
        "and 61 more",
    ),
    "keys of every kind": (lambda: "{[a]: 1, {b: c}: 2}\n", "single word"),
    "a long name": (
        lambda: f"{HEAD}parts: {{{'a' * 900}: {{stock: t, path: [[0, 0, 0], [0, 0, 1]]}}}}\n",
        "at most 40",
    ),
}


def load_all(paths: list[Path]) -> dict[Path, dict[str, object]]:
    """What loading each file came to, in a process of its own with one thread for numbers."""
    source = str(Path(fitwright.__file__).parents[1])
    environment = {**os.environ, "PYTHONPATH": source, "OMP_NUM_THREADS": "1", "OPENBLAS_NUM_THREADS": "1"}
    command = [sys.executable, "-c", LOADER, str(SECONDS), *map(str, paths)]
    run = subprocess.run(command, capture_output=True, text=True, timeout=600, env=environment, check=False)
    assert "Traceback" not in run.stderr, run.stderr[-2000:]
    found = [json.loads(line) for line in run.stdout.splitlines()]
    return {Path(one["path"]): one for one in found}


@pytest.fixture(scope="module")
def answers(tmp_path_factory: pytest.TempPathFactory) -> dict[str, dict[str, object]]:
    """The answer to each hostile file by its name; one that took too long, and those after it, have none."""
    folder = tmp_path_factory.mktemp("hostile")
    paths = {case: folder / f"{number}.yaml" for number, case in enumerate(HOSTILE)}
    for case, path in paths.items():
        content = HOSTILE[case][0]()
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
    paths |= {"a folder": folder, "a missing file": folder / "none.yaml", "a device": Path("/dev/zero")}
    good = folder / "good.yaml"
    good.write_text(HEAD + PARTS)
    found = load_all([*paths.values(), good])
    return {case: found[path] for case, path in {**paths, "good": good}.items() if path in found}


@pytest.mark.parametrize("case", HOSTILE)
def test_hostile_file_gets_a_clear_error_in_time(case: str, answers: dict[str, dict[str, object]]) -> None:
    assert case in answers, f"not answered within {SECONDS} s, or one before it was not"
    assert HOSTILE[case][1] in str(answers[case]["said"])
    assert float(str(answers[case]["mb"])) < MOST_MB


@pytest.mark.parametrize(
    ("case", "expected"),
    [
        ("a folder", "is a folder"),
        ("a missing file", "cannot be read: no such file"),
        ("a device", "not an ordinary file"),
    ],
)
def test_what_is_no_file(case: str, expected: str, answers: dict[str, dict[str, object]]) -> None:
    assert expected in str(answers[case]["said"])


def test_a_good_file_after_them_all_loads(answers: dict[str, dict[str, object]]) -> None:
    assert answers["good"]["said"] == ""
