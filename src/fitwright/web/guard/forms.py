"""The form of a request: its fields, and the files sent with it where a page takes such."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from urllib.parse import parse_qsl

from starlette.datastructures import Headers
from starlette.types import Receive

from fitwright.web.errors import NotTaken, TooMuch

LARGEST = 2_000_000
LARGEST_WITH_FILES = 80_000_000
"""As large as the largest picture that is read."""
MOST_FIELDS = 400
FIELDS = "application/x-www-form-urlencoded"
WITH_FILES = "multipart/form-data"
BOUNDARY = re.compile(r'boundary="?([0-9A-Za-z\'()+_,./:=? -]{1,70})"?', re.ASCII)
LONGEST_HEAD = 4096
NAMED = re.compile(r';\s*(name|filename)="([^"]*)"')
ENCODED = (("%22", '"'), ("%0D", "\r"), ("%0A", "\n"))
"""How browsers write what would end a name. Source: HTML standard, multipart form data."""


@dataclass(frozen=True)
class Upload:
    """A file as it was sent: the name that the device gave it, which is not to be trusted, and its bytes."""

    name: str
    content: bytes


@dataclass(frozen=True)
class Form:
    """What was sent: fields by name, the last of each, and files by the name of their field."""

    fields: dict[str, str] = field(default_factory=dict)
    files: dict[str, Upload] = field(default_factory=dict)


async def read_form(headers: Headers, receive: Receive, takes_files: bool) -> Form:
    """The form in the body of a request. Raises NotTaken, TooMuch."""
    said = headers.get("content-type", FIELDS)
    kind = said.partition(";")[0].strip().lower()
    if kind not in ((FIELDS, WITH_FILES) if takes_files else (FIELDS,)):
        raise NotTaken(f"only forms are taken ({FIELDS}{f', {WITH_FILES}' if takes_files else ''})")
    body = await _body(headers, receive, LARGEST_WITH_FILES if kind == WITH_FILES else LARGEST)
    return _with_files(said, body) if kind == WITH_FILES else Form(_fields(body))


def _fields(body: bytes) -> dict[str, str]:
    try:
        return dict(parse_qsl(body.decode(), keep_blank_values=True, max_num_fields=MOST_FIELDS, errors="strict"))
    except ValueError:
        raise NotTaken(f"the form cannot be read: UTF-8 and at most {MOST_FIELDS} fields are taken") from None


def _with_files(kind: str, body: bytes) -> Form:
    """Source: RFC 7578, with the parts' borders of RFC 2046 section 5.1.1."""
    found = BOUNDARY.search(kind)
    if found is None:
        raise NotTaken("the form cannot be read: it does not say what stands between its parts")
    border = b"\r\n--" + found[1].encode()
    parts = (b"\r\n" + body).split(border, MOST_FIELDS + 1)
    if len(parts) < 2 or not parts[-1].startswith(b"--"):
        raise NotTaken(f"the form cannot be read: it is not whole, or has more than {MOST_FIELDS} fields")
    form = Form()
    for part in parts[1:-1]:
        _take(form, part)
    return form


def _take(form: Form, part: bytes) -> None:
    head, empty_line, content = part.partition(b"\r\n\r\n")
    try:
        names = dict(NAMED.findall(head[:LONGEST_HEAD].decode()))
        if not empty_line or "name" not in names:
            raise NotTaken("the form cannot be read: a part of it has no name")
        if "filename" in names:
            form.files[_plain(names["name"])] = Upload(_plain(names["filename"]), content)
        else:
            form.fields[_plain(names["name"])] = content.decode()
    except UnicodeDecodeError:
        raise NotTaken("the form cannot be read: UTF-8 is taken") from None


def _plain(name: str) -> str:
    for written, meant in ENCODED:
        name = name.replace(written, meant)
    return name


async def _body(headers: Headers, receive: Receive, largest: int) -> bytes:
    length = headers.get("content-length", "0")
    parts, size, told = [], 0, int(length) if length.isascii() and length.isdigit() else 0
    while max(size, told) <= largest:
        message = await receive()
        parts.append(message.get("body", b""))
        size += len(parts[-1])
        if not message.get("more_body", False):
            return b"".join(parts)
    raise TooMuch(f"this is too large: at most {largest:,} bytes are taken")
