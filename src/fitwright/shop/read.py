"""Reading a shop file: what it leaves out comes from the profile shipped for its unit."""

from __future__ import annotations

from decimal import Decimal
from functools import cache
from importlib import resources
from pathlib import Path
from typing import Any

from fitwright.shop.errors import ShopError, ShopMistake
from fitwright.shop.model import (
    Bench,
    BenchClamp,
    BenchPin,
    BenchSquare,
    BenchStop,
    Bender,
    Die,
    Saw,
    SheetSize,
    Shop,
    StockLength,
    Welding,
)
from fitwright.shop.pricing import prices_of
from fitwright.shop.yaml_lines import LARGEST_FILE, Tree, read_tree
from fitwright.units import Unit

SHIPPED = {"inch": "inch.yaml", "mm": "metric.yaml", "cm": "metric.yaml"}
MOST_BYTES = 4 * LARGEST_FILE


def load_shop(path: Path | str | None = None) -> Shop:
    """The shop of a `shop.yaml`; the inch profile that ships with the program when path is None.

    Sections that the file leaves out are taken from the shipped profile of its unit.

    Raises ShopError with every mistake of the file.
    """
    if path is None:
        return default_shop("inch")
    return shop_from_text(_text(Path(path)), str(path))


@cache
def default_shop(unit: Unit) -> Shop:
    """The profile that ships with the program, for inch or metric (mm, cm) jobs; invented, with realistic numbers."""
    shipped = _shipped(SHIPPED[unit])
    return _checked(shipped.root, shipped, SHIPPED[unit])


def shipped_profile(unit: Unit) -> str:
    """The text of the shipped profile: a good file to start from."""
    return _shipped_text(SHIPPED[unit])


def shop_from_text(text: str, name: str) -> Shop:
    """The shop of a YAML text; `name` is how messages call it. Raises ShopError with every mistake in it."""
    from fitwright.shop.mistakes import top_mistakes

    tree = read_tree(text)
    mistakes = [*tree.mistakes, *top_mistakes(tree)]
    if mistakes:
        raise ShopError(name, tuple(mistakes))
    assert isinstance(tree.root, dict)
    given = {key.strip().replace(" ", "_"): value for key, value in tree.root.items()}
    shipped = _shipped(SHIPPED["inch" if given["unit"] == "inch" else "mm"]).root
    assert isinstance(shipped, dict)
    return _checked({**shipped, **given}, tree, name)


def _text(path: Path) -> str:
    try:
        if path.stat().st_size > MOST_BYTES:
            raise ShopError(str(path), (ShopMistake(1, "", f"the file has more than {MOST_BYTES} bytes"),))
        return path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError as wrong:
        raise ShopError(
            str(path), (ShopMistake(1, "", f"byte {wrong.start} is not UTF-8 text", "a text file saved as UTF-8"),)
        ) from None
    except OSError as wrong:
        raise ShopError(str(path), (ShopMistake(1, "", f"cannot be read: {wrong.strerror}", "a shop.yaml"),)) from None


def _shipped_text(name: str) -> str:
    return (resources.files(__package__) / "data" / name).read_text(encoding="utf-8")


@cache
def _shipped(name: str) -> Tree:
    return read_tree(_shipped_text(name))


def _checked(values: Any, tree: Tree, name: str) -> Shop:
    from pydantic import ValidationError

    from fitwright.shop.mistakes import mistakes_of
    from fitwright.shop.schema import ShopFile

    try:
        file = ShopFile.model_validate(values, context={"unit": values["unit"]})
    except ValidationError as wrong:
        raise ShopError(name, mistakes_of(wrong, tree)) from None
    return _shop(file)


def _shop(file: Any) -> Shop:
    from fitwright.shop.working_schema import working_of

    held = file.model_dump()
    return Shop(
        name=held["name"],
        unit=held["unit"],
        currency=held["currency"],
        saws=tuple(Saw(**saw) for saw in held["saws"]),
        benders=tuple(Bender(**bender) for bender in held["benders"]),
        dies=tuple(_die(die) for die in held["dies"]),
        stock_lengths=tuple(bar for entry in held["stock"] for bar in _bars(entry)),
        sheets=tuple(_sheet(sheet) for sheet in held["sheets"]),
        usual_lengths={shape: tuple(lengths) for shape, lengths in held["usual_lengths"].items()},
        usual_sheet=held["usual_sheet"],
        prices_per_kg=held["prices_per_kg"],
        bench=_bench(held["bench"]),
        welding=Welding(**held["welding"]),
        prices=prices_of(held),
        rates=held["rates"],
        trim_allowance=held["trim_allowance"],
        working=working_of(held),
        records=held["records"],
    )


def _bench(held: dict[str, Any]) -> Bench:
    """Holes begin half a pitch from the edges, and a face that does not slide is where it is, unless said."""
    half = held["hole_pitch"] / 2
    stops = [{**stop, "farthest": stop["farthest"] or stop["face"]} for stop in held["stops"]]
    sets = {
        "pins": tuple(BenchPin(**pin) for pin in held["pins"]),
        "stops": tuple(BenchStop(**stop) for stop in stops),
        "squares": tuple(BenchSquare(**square) for square in held["squares"]),
        "clamps": tuple(BenchClamp(**clamp) for clamp in held["clamps"]),
    }
    return Bench(**{**held, **sets, "first_hole": held["first_hole"] or (half, half)})


def _die(held: dict[str, Any]) -> Die:
    """A lead or least straight between bends that is not given is the grip."""
    return Die(**{name: held["grip"] if value is None else value for name, value in held.items()})


def _sheet(entry: dict[str, Any]) -> SheetSize:
    length, width = entry["size"]
    return SheetSize(entry["stock"], length, width, entry["price"])


def _bars(entry: dict[str, Any]) -> list[StockLength]:
    bought = [StockLength(entry["stock"], length, price) for length, price in entry["lengths"].items()]
    offcuts = [
        StockLength(entry["stock"], length, Decimal(0), entry["offcuts"].count(length), offcut=True)
        for length in sorted(set(entry["offcuts"]))
    ]
    return bought + offcuts
