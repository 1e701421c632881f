"""What the terminal says, and what cannot be served."""

from __future__ import annotations

import socket
from pathlib import Path

import pytest

from fitwright.web.guard import Pairing
from fitwright.web.serving import CannotServe, greeting, qr_code, serve


def test_for_this_machine_alone_one_line_says_where() -> None:
    said = greeting(Path("jobs"), 8733, None, ())
    assert len(said) == 1
    assert "http://127.0.0.1:8733" in said[0]


def test_for_the_network_it_tells_the_code_and_draws_the_address() -> None:
    pairing = Pairing("ABCD2345")
    said = "\n".join(greeting(Path("jobs"), 99, pairing, ("192.0.2.7", "bench")))
    assert "http://192.0.2.7:99" in said
    assert "ABCD 2345" in said
    assert qr_code("http://192.0.2.7:99/pair?code=ABCD2345") in said
    assert "not encrypted" in said


def test_what_is_no_folder_cannot_be_served(tmp_path: Path) -> None:
    with pytest.raises(CannotServe, match="make it"):
        serve(tmp_path / "nothing")


def test_a_port_that_is_taken_is_told(tmp_path: Path) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        with pytest.raises(CannotServe, match="--port"):
            serve(tmp_path, port=int(taken.getsockname()[1]))
