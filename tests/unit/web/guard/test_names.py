"""Hosts and origins that are ours."""

from __future__ import annotations

import pytest

from fitwright.web.guard.names import names


@pytest.mark.parametrize("host", ["127.0.0.1:8733", "localhost:8733", "LOCALHOST:8733", "[::1]:8733", "localhost"])
def test_loopback_is_known_by_its_names(host: str) -> None:
    assert names(8733).knows(host)


@pytest.mark.parametrize(
    "host",
    ["", "evil.test", "evil.test:8733", "localhost:80", "localhost:x", "localhost.evil.test:8733", "10.0.0.7:8733"],
)
def test_no_other_name_is_known(host: str) -> None:
    assert not names(8733).knows(host)


def test_an_address_in_the_network_is_known_where_it_is_served() -> None:
    assert names(8733, ("10.0.0.7", "Shop-PC")).knows("10.0.0.7:8733")
    assert names(8733, ("10.0.0.7", "Shop-PC")).knows("shop-pc:8733")


def test_an_origin_is_the_same_when_it_is_the_address_asked() -> None:
    ours = names(8733)
    assert ours.same_origin("http://localhost:8733", "localhost:8733")
    for origin in ("http://localhost:1", "https://localhost:8733", "null", "http://localhost:8733.evil.test", "x"):
        assert not ours.same_origin(origin, "localhost:8733")
