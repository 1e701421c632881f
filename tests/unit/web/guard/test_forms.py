"""Forms as browsers send them, whole and broken.

Source: RFC 7578 (multipart/form-data) with RFC 2046 section 5.1.1; the HTML standard for what stands in names.
"""

from __future__ import annotations

import asyncio

import pytest
from hypothesis import given
from hypothesis import strategies as st
from starlette.datastructures import Headers
from starlette.types import Message

from fitwright.web.errors import NotTaken, TooMuch
from fitwright.web.guard import forms
from fitwright.web.guard.forms import FIELDS, Form, Upload, read_form

KIND = "multipart/form-data; boundary=----seam"


def sent(body: bytes, kind: str = FIELDS, takes_files: bool = False, pieces: int = 1, **headers: str) -> Form:
    """A form read from a body that comes in so many pieces."""
    size = max(-(-len(body) // pieces), 1)
    parts = [body[k : k + size] for k in range(0, max(len(body), 1), size)]

    async def receive() -> Message:
        part = parts.pop(0)
        return {"type": "http.request", "body": part, "more_body": bool(parts)}

    said = Headers({"content-type": kind, **{name.replace("_", "-"): value for name, value in headers.items()}})
    return asyncio.run(read_form(said, receive, takes_files))


def multipart(*parts: tuple[str, bytes]) -> bytes:
    """Parts, each with what it says of itself."""
    found = b"".join(b"------seam\r\n" + head.encode() + b"\r\n\r\n" + content + b"\r\n" for head, content in parts)
    return found + b"------seam--\r\n"


def named(name: str, more: str = "") -> str:
    return f'Content-Disposition: form-data; name="{name}"{more}'


def test_fields_are_read_and_the_last_of_a_name_counts() -> None:
    assert sent(b"a=1&b=x+y%20z&a=2", pieces=3).fields == {"a": "2", "b": "x y z"}


def test_files_and_fields_come_together() -> None:
    content = bytes(range(256)) + b"\r\n--not the seam\r\n"
    file = named("picture", '; filename="hall %22old%22.jpg"') + "\r\nContent-Type: image/jpeg"
    form = sent(multipart((named("token"), b"abc"), (file, content)), KIND, True, pieces=7)
    assert form.fields == {"token": "abc"}
    assert form.files == {"picture": Upload('hall "old".jpg', content)}


@given(st.binary(max_size=300))
def test_any_bytes_come_as_they_were_sent(content: bytes) -> None:
    form = sent(multipart((named("f", '; filename="x"'), content)), KIND, True)
    assert form.files["f"].content == content


def test_files_are_taken_where_a_page_takes_them() -> None:
    with pytest.raises(NotTaken, match="only forms"):
        sent(multipart((named("f", '; filename="x"'), b"1")), KIND, False)


@pytest.mark.parametrize(
    ("body", "kind"),
    [
        (b"a=%ff", FIELDS),
        (b"&".join(b"a%d=1" % k for k in range(401)), FIELDS),
        (b"{}", "application/json"),
        (multipart((named("a"), b"1")), "multipart/form-data"),
        (multipart((named("a"), b"1"))[:-6], KIND),
        (multipart(("Content-Disposition: form-data", b"1")), KIND),
        (multipart((named("a"), b"\xff")), KIND),
        (multipart(*[(named(f"a{k}"), b"1") for k in range(401)]), KIND),
        (b"", KIND),
    ],
)
def test_what_cannot_be_read_is_not_taken(body: bytes, kind: str) -> None:
    with pytest.raises(NotTaken):
        sent(body, kind, True)


def test_what_is_too_large_is_refused_before_it_is_read(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(forms, "LARGEST", 10)
    with pytest.raises(TooMuch):
        sent(b"a=1", content_length="11")
    with pytest.raises(TooMuch):
        sent(b"a=" + b"1" * 20, pieces=4)
    assert sent(b"a=1", content_length="3").fields == {"a": "1"}
