"""Materials by the words that makers use."""

from __future__ import annotations

import pytest

from fitwright.stock import StockError, find_material, materials, wood_density
from fitwright.stock.materials import METALS, WOODS


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("stainless", "stainless 304"),
        ("Stainless 316", "stainless 316"),
        ("aluminum 6061", "aluminium 6061-T6"),
        ("6063-T5", "aluminium 6063-T5"),
        ("a36", "mild steel A36"),
        ("S235", "mild steel S235"),
    ],
)
def test_metals(words: str, name: str) -> None:
    assert find_material(words, METALS).name == name


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("white pine", "eastern white pine"),
        ("Douglas fir", "Douglas-fir"),
        ("oak", "northern red oak"),
        ("SPF", "spruce-pine-fir"),
    ],
)
def test_woods(words: str, name: str) -> None:
    assert find_material(words, WOODS).name == name


def test_words_that_name_several_take_the_preferred() -> None:
    assert find_material("mild steel", METALS, "mild steel A53").name == "mild steel A53"
    assert find_material("birch", ("plywood",)).kind == "plywood"
    assert find_material("birch", WOODS).name == "yellow birch"


def test_unknown_material_names_the_nearest() -> None:
    with pytest.raises(StockError, match="did you mean 'oak'"):
        find_material("oka", WOODS)
    with pytest.raises(StockError, match="accepted: mild steel A513"):
        find_material("oak", METALS)


def test_every_material_has_what_its_kind_needs() -> None:
    assert len({material.name for material in materials()}) == len(materials())
    for material in materials():
        assert 300 < material.density < 9000
        assert 0 < material.g < material.e
        assert material.basis
        if material.is_metal:
            assert material.fy is not None
            assert material.fu is not None
            assert material.fy < material.fu
            assert material.expansion is not None
            assert 0 < (material.elongation or 0) < 0.6
        elif material.kind in WOODS:
            assert material.mor
            assert material.c_radial is not None
            assert material.c_tangential is not None
            assert material.c_radial < material.c_tangential


def test_no_word_names_two_woods() -> None:
    for material in materials():
        if material.kind in WOODS:
            assert find_material(material.name, WOODS) is material


def test_wood_density() -> None:
    assert wood_density(0.5) == pytest.approx(560)
    assert wood_density(0.5, 0.0) == 500
