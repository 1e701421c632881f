"""The description of the interface is whole."""

from __future__ import annotations

from fitwright.web.interface import interface
from fitwright.web.page import all_pages


def test_every_call_of_every_page_is_described() -> None:
    paths = interface()["paths"]
    calls = [
        (call.path.replace(":int", "").replace(":path", ""), call.method.lower())
        for page in all_pages()
        for call in page.calls
    ]
    assert {(path, method) for path, found in paths.items() for method in found} == set(calls)
    assert len(calls) == len(set(calls))


def test_a_form_names_its_fields() -> None:
    form = interface()["paths"]["/jobs/{job}/dims"]["post"]["requestBody"]["content"][
        "application/x-www-form-urlencoded"
    ]
    assert form["schema"]["required"] == ["token", "revision", "name", "was", "text"]


def test_every_folder_under_pages_is_a_page() -> None:
    assert {page.name for page in all_pages()} >= {"jobs", "piece", "sheets", "file", "versions", "why", "pairing"}
    tabs = [page.tab for page in all_pages() if page.tab]
    assert tabs[0] == "Piece"
    assert len(tabs) == len(set(tabs))


def test_every_page_with_a_tab_answers_where_it_leads() -> None:
    paths = {call.path for page in all_pages() for call in page.calls if call.method == "GET"}
    for page in all_pages():
        assert not page.tab or f"/jobs/{{job}}{page.at}" in paths, page.name
        assert not page.top or page.at in paths, page.name
