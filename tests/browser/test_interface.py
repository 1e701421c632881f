"""Random requests over the whole HTTP interface, from its own description: none may fail inside.

Source: schemathesis, property-based tests of an OpenAPI description; its shrinking and data generation are hypothesis'.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from typing import Any
from urllib.parse import quote

import pytest
import schemathesis
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from schemathesis.core.result import Ok
from starlette.testclient import TestClient

from fitwright.web import workbench_app
from fitwright.web.guard.names import Names
from fitwright.web.interface import interface
from tests.demos import EXAMPLES
from tests.unit.web.serving import BASE, HOST, hidden

CASES = 2000
KEYS = {
    "job": ("coat-rail", "workbench", "nothing", "archived"),
    "starter": ("coat-rail", "nothing"),
    "name": ("height", "width", "rail_height"),
    "mark": ("A1", "C1", "ZZ"),
    "key": ("bending:C1:die", "space:left:gap on the left"),
    "file": ("packet.pdf", "made-from.txt", "job.yaml"),
    "number": ("1", "99", "-1", "x"),
}
FIELDS = {
    "name": ("height", "width", "rail", "New one"),
    "text": ("1800", "1800 +", "900 mm", "height / 2"),
    "was": ("1745", ""),
    "part": ("rail", "base"),
    "kind": ("member", "panel", "bought", "opening"),
    "starter": ("coat-rail",),
    "step": ("up", "down"),
    "new_key": ("radius", "mirror"),
    "new_value": ("50", "{x: 1", "[1, 2]"),
    "value.radius": ("", "60"),
}
ENDLESS = "/jobs/{job}/events"


def either(known: tuple[str, ...]) -> st.SearchStrategy[str]:
    """A word that means something here, or anything at all."""
    return st.one_of(st.sampled_from(known), st.text(max_size=40))


@pytest.fixture(scope="module")
def opened(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    jobs = tmp_path_factory.mktemp("asked") / "jobs"
    for name in ("coat-rail", "workbench"):
        shutil.copytree(EXAMPLES / name, jobs / name)
    app = workbench_app(jobs, known_as=Names(frozenset({HOST}), 80))
    with TestClient(app, base_url=BASE, follow_redirects=False, raise_server_exceptions=False) as client:
        yield client


def operations() -> list[Any]:
    """Every call but a stream of events, and those that begin processes of seconds, which the browser tests read."""
    loaded = schemathesis.openapi.from_dict(interface())
    found = [result.ok() for result in loaded.get_all_operations() if isinstance(result, Ok)]
    return [one for one in found if one.path != ENDLESS and not one.definition.raw["x-later"]]


def encoded(text: str) -> str:
    """As one part of an address, dots too, which a client would take for folders."""
    return quote(text, safe="").replace(".", "%2E") or "%20"


def revision(opened: TestClient, data: st.DataObject) -> str:
    """The newest revision of a job mostly, so that changes get through."""
    if data.draw(st.integers(0, 3)) == 0:
        return data.draw(st.text(max_size=20))
    return str(opened.get("/jobs/coat-rail/mesh").headers.get("x-revision", ""))


def test_no_request_fails_inside(opened: TestClient) -> None:
    calls = operations()
    asked = {"count": 0, "taken": 0}
    token = hidden(opened.get("/jobs/coat-rail"), "token")

    @settings(
        max_examples=CASES, deadline=None, database=None, derandomize=True, suppress_health_check=list(HealthCheck)
    )
    @given(data=st.data())
    def ask(data: st.DataObject) -> None:
        operation = data.draw(st.sampled_from(calls))
        case = data.draw(operation.as_strategy())
        path = operation.path
        for name in case.path_parameters or {}:
            path = path.replace(f"{{{name}}}", encoded(data.draw(either(KEYS.get(name, ("x",))))))
        form = {**(case.body if isinstance(case.body, dict) else {})}
        known = {name: data.draw(either(words)) for name, words in FIELDS.items() if data.draw(st.booleans())}
        form = {**form, **known, "token": token, "revision": revision(opened, data)}
        answer = opened.request(operation.method.upper(), path, data=form if operation.method == "post" else None)
        asked["count"] += 1
        asked["taken"] += answer.status_code in (200, 204, 303)
        assert answer.status_code < 500, (operation.method, path, form, answer.text[:500])

    ask()
    assert asked["count"] >= CASES
    assert asked["taken"] > CASES / 10
