"""The verbs about money: price, quote, explore."""

from __future__ import annotations

import json
from decimal import Decimal
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from fitwright.cli import main
from tests.stand import TEXT, stand


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """A folder with the stand."""
    (tmp_path / "job.yaml").write_text(TEXT, encoding="utf-8")
    return tmp_path


def run(*words: object) -> Result:
    return CliRunner().invoke(main, [str(word) for word in words])


def test_price_as_json_is_the_price(job: Path) -> None:
    told = json.loads(run("price", job, "--json").stdout)
    assert Decimal(told["cost"]) == stand().cost.total
    assert Decimal(told["price"]["before_tax"]) == stand().price.net
    assert told["alternatives"] == []


def test_price_in_words_at_another_margin(job: Path) -> None:
    done = run("price", job, "--margin", "50 %", "--to", job / "own.pdf")
    assert done.exit_code == 0, done.output
    assert "steps that cost most" in done.output
    assert (job / "own.pdf").read_bytes().startswith(b"%PDF")


def test_quote(job: Path) -> None:
    done = run("quote", job, "--to", job / "client" / "quote.pdf", "--margin", "30%")
    assert done.exit_code == 0, done.output
    assert "before tax" in done.output
    assert (job / "client" / "quote.pdf").read_bytes().startswith(b"%PDF")


@pytest.mark.parametrize("margin", ["30", "much", "100 %", "-5 %"])
def test_a_margin_that_is_none(job: Path, margin: str) -> None:
    done = run("quote", job, "--to", job / "q.pdf", f"--margin={margin}")
    assert done.exit_code == 2
    assert "margin" in done.output
    assert not (job / "q.pdf").exists()


def test_a_shop_that_lacks_a_price(job: Path) -> None:
    (job / "shop.yaml").write_text("name: Poor\nunit: mm\ncurrency: EUR\npaint: {}\n", encoding="utf-8")
    done = run("quote", job, "--to", job / "q.pdf")
    assert done.exit_code == 2
    assert "under paint in the shop file" in done.output
    assert "not known, and in no sum" in run("price", job).output


def test_explore_writes_the_table_and_the_picture(job: Path) -> None:
    done = run(
        "explore", job, "--vary", "width=400|420", "--vary", "stock.frame=square tube 25 x 25 x 2|round tube 9 x 9",
        "--workers", 1, "--to", job / "w.csv", "--to", job / "w.svg", "--json",
    )  # fmt: skip
    assert done.exit_code == 0, done.output
    told = json.loads(done.stdout)
    assert [one["number"] for one in told] == [1, 2, 3, 4]
    assert [bool(one["wrong"]) for one in told] == [False, True, False, True]
    assert (job / "w.csv").read_text(encoding="utf-8").count("\n") == 5
    assert (job / "w.svg").read_text(encoding="utf-8").startswith("<svg")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--vary", "wide=1|2"], "did you mean width?"),
        (["--vary", "width=400..500"], "take a sample"),
        (["--vary", "width=1|2", "--to", "a.xls"], "take a name that ends in"),
    ],
)
def test_explore_says_what_is_wrong_before_it_begins(job: Path, words: list[str], said: str) -> None:
    done = run("explore", job, *words)
    assert done.exit_code == 2
    assert said in done.output
