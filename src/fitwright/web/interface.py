"""The HTTP interface in the form of OpenAPI 3.1, from what the pages say of their own calls."""

from __future__ import annotations

import re
from typing import Any

from fitwright import __version__
from fitwright.web.guard.forms import FIELDS, WITH_FILES
from fitwright.web.page import Call, all_pages

Json = dict[str, Any]
REFUSALS = {"303": "go on there", "403": "refused", "404": "not there", "409": "changed meanwhile", "422": "not taken"}


def interface() -> Json:
    """The whole interface."""
    paths: Json = {}
    for page in all_pages():
        for call in page.calls:
            paths.setdefault(_plain(call.path), {})[call.method.lower()] = _operation(call, page.name)
    head = {"title": "Fitwright workbench", "version": __version__}
    return {"openapi": "3.1.0", "info": head, "paths": paths}


def _operation(call: Call, page: str) -> Json:
    fields = re.findall(r"{(\w+)(?::\w+)?}", call.path)
    operation: Json = {
        "tags": [page],
        "summary": call.told,
        "x-later": call.later,
        "parameters": [{"name": name, "in": "path", "required": True, "schema": {"type": "string"}} for name in fields],
        "responses": {
            "200": {"description": "as asked", "content": {call.gives: {}}},
            "204": {"description": "nothing new"},
            "400": {"description": "a request that cannot be read"},
            "413": {"description": "too large"},
            "429": {"description": "too many attempts"},
            **{code: {"description": said} for code, said in REFUSALS.items()},
        },
    }
    if call.method == "POST":
        taken: Json = {name: {"type": "string"} for name in ("token", *call.takes)}
        taken |= {name: {"type": "string", "format": "binary"} for name in call.files}
        shape = {"type": "object", "properties": taken, "required": ["token", *call.takes]}
        operation["requestBody"] = {"content": {WITH_FILES if call.files else FIELDS: {"schema": shape}}}
    return operation


def _plain(path: str) -> str:
    return re.sub(r":\w+}", "}", path)
