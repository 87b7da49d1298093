"""What `restate` prints: the sheet, the file, JSON, and what it says when it cannot."""

import json
import re
from collections.abc import Callable
from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest

from brimline.document import read
from brimline.review.engine import review
from brimline.review.restate.restated import restate
from brimline.review.restate.values import Restated, RestateError
from brimline.shelf import load_shelf, shelf_of

Run = Callable[..., tuple[int, str, str]]
ON = ("--on", "2026-11-27")

FERMENT = """\
formula XX-1 Something
product   {product}
standing  {standing}
finish    simmer 10 to 15 min
yield     4 pint

take
{take}

make
{make}

pack
  jar        pint
  prepare    clean
  fill       hot
  headspace  1/2 in
  lid        two-piece

process boiling-water
  pint: 15 min to 1000 ft, 20 min to 6000 ft, 25 min above

evidence
  source     tested formulas, 3rd edition, p. 41
"""


def made(*take: str, by: str = "1/2", units: str = "us", product: str = "relish", standing: str = "tested",
         make: tuple[str, ...] = ("Simmer 10 minutes.",)) -> Restated:  # fmt: skip
    text = FERMENT.format(
        product=product,
        standing=standing,
        take="\n".join(f"  {line}" for line in take),
        make="\n".join(f"  - {line}" for line in make),
    )
    shelf = shelf_of({"xx-1.formula": text}, date(2026, 7, 1))
    return restate(shelf, shelf.formulas[0], Fraction(by), units)


def test_the_sheet_has_both_columns_and_says_which_cup(run: Run) -> None:
    status, out, err = run("restate", "kv-101", *ON)
    assert (status, err) == (0, "")
    # 6 cups crushed fruit: 1419.5 ml; 1420 and 1425 are both within 1 percent (NIST SP 811 factors, from memory).
    row = next(line for line in out.splitlines() if "gooseberries, crushed" in line)
    assert re.search(r"6 cup\s+1\.4\d* l", row)
    assert "236.5882365 ml" in out
    assert "NIST Handbook 44" in out
    assert "Demonstration. Not tested. Do not preserve from this." in out


def test_a_filed_formula_reads_again_and_is_reviewed_like_any_other(run: Run, tmp_path: Path) -> None:
    status, out, err = run("restate", "KV-102", "--batch", "half", "--units", "metric", "--as", "formula", *ON)
    assert status == 0
    assert "not held back" in err
    root = Path(__file__).resolve().parents[2]
    for name in ("collection.yaml", "tested/kv-102.formula"):
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_bytes((root / "formulas" / name).read_bytes())
    (tmp_path / "half.formula").write_text(out, encoding="utf-8")
    found = {one.path: one for one in review(load_shelf([str(tmp_path)], date(2026, 1, 1))).formulas}["half.formula"]
    assert (found.departs_from, found.scale, found.held_back) == ("KV-102", "0.50", False)
    assert found.findings == ()


def test_a_double_batch_is_cooked_as_two(run: Run) -> None:
    # Doubling is advised against (USDA Complete Guide, Guide 1, p. 1-30; read); the row's level is quality.
    status, out, _ = run("restate", "KV-101", "--batch", "double", *ON)
    assert status == 0
    assert "set/batch" in out
    assert "one after the other" in out
    assert "Guide 1, p. 1-30" in out


def test_a_batch_below_half_says_so_and_a_tenth_more_does_not() -> None:
    assert made("vegetable 6 cup onions, chopped", by="1/3").caution is not None
    assert made("vegetable 6 cup onions, chopped", by="11/10").caution is None
    assert made("vegetable 6 cup onions, chopped", by="1/2").caution is None


def test_json_gives_exact_amounts_as_text(run: Run) -> None:
    status, out, _ = run("restate", "KV-101", "--batch", "2/3", "--as", "json", *ON)
    data = json.loads(out)
    assert (status, data["report"], data["batch"]) == (0, "restated", "2/3")
    sugar = next(line for line in data["lines"] if "sugar" in line["item"])
    assert sugar["exact"] == "17/3 cup"
    assert out.isascii()


@pytest.mark.parametrize(
    ("word", "says"),
    [
        ("0", "a batch of nothing"),
        ("1/0", "write a share"),
        ("-1", "write a share"),
        ("lots", "write a share"),
        ("90", "twenty times"),
    ],
)
def test_a_batch_that_is_none_is_refused(run: Run, word: str, says: str) -> None:
    status, out, err = run("restate", "KV-101", "--batch", word, *ON)
    assert (status, out) == (2, "")
    assert says in err


def test_a_code_that_is_not_there_is_answered_with_the_nearest(run: Run) -> None:
    status, _, err = run("restate", "KV-1011", *ON)
    assert status == 2
    assert "KV-101" in err


def test_an_open_amount_stays_and_is_said() -> None:
    one = made("vegetable 6 cup onions, chopped", "acid 2 cup vinegar, 5 %", "spice some cloves, whole")
    kept = [line for line in one.lines if line.kept]
    assert [line.item for line in kept] == ["cloves, whole"]
    assert "left to the cook" in kept[0].kept


def test_acid_for_each_jar_stays_and_every_jar_gets_its_share(run: Run) -> None:
    # 2 tbsp per quart, 1 tbsp per pint (USDA Complete Guide, Guide 3, p. 3-5; read), whatever the batch.
    status, out, _ = run("restate", "KV-130", "--batch", "1/2", "--units", "us", *ON)
    assert status == 0
    assert "2 tbsp per quart jar" in out
    assert "each pint: 1 tbsp" in out
    assert "each quart: 2 tbsp" in out


def test_steps_follow_the_list_and_what_they_name_otherwise_is_said() -> None:
    one = made(
        "vegetable 6 cup onions, chopped",
        "acid 2 cup vinegar, 5 %",
        make=("Measure 6 cups onions.", "Add 2 cups vinegar.", "Keep back 3 cups of water.", "Fill 1 pint jars."),
    )
    texts = [step.text for step in one.document.make]
    assert texts[:2] == ["Measure 3 cups onions.", "Add 1 cup vinegar."]
    assert texts[3] == "Fill 1 pint jars."
    assert one.left == ("3 cups",)


def test_salt_of_a_ferment_is_never_less_and_a_step_in_inches_goes_metric() -> None:
    one = made("vegetable 5 lb cucumbers", "salt 1/3 cup salt, canning", by="2/3", product="fermented pickle")
    assert next(line for line in one.lines if "salt" in line.item).way == "up"
    two = made("vegetable 6 cup onions, chopped", units="metric", by="1", make=("Leave 1/2 inch of headspace.",))
    assert two.document.make[0].text == "Leave 12 mm of headspace."


def test_half_a_teaspoon_of_butter_is_for_any_pot() -> None:
    # Up to 1/2 tsp butter a batch keeps foam down, not scaled (decision table, fat-foam).
    shelf = load_shelf([str(Path(__file__).resolve().parents[2] / "formulas")], date(2026, 1, 1))
    book = next(book for book in shelf.formulas if book.code == "KV-101")
    assert (
        next(line for line in restate(shelf, book, Fraction(2), "us").lines if "butter" in line.item).exact == "1/2 tsp"
    )
    assert (
        next(line for line in restate(shelf, book, Fraction(1, 2), "us").lines if "butter" in line.item).exact
        == "1/4 tsp"
    )


def test_a_name_that_only_its_spoon_made_clear_is_written_out() -> None:
    one = made("vegetable 6 cup onions, chopped", "spice 1/2 tsp pepper", units="metric", by="1")
    again = read("x", one.text.encode()).document
    assert again is not None
    assert again.take[1].item == "black pepper"


def test_a_retired_formula_is_not_handed_out() -> None:
    text = FERMENT.format(product="relish", standing="retired", take="  vegetable 6 cup onions", make="  - Simmer.")
    text = text.replace("\n\ntake", "\nretired   2026-01-01, new guidance\nsuccessor XX-2\n\ntake")
    shelf = shelf_of({"xx-1.formula": text}, date(2026, 7, 1))
    with pytest.raises(RestateError, match=r"retired.*XX-2"):
        restate(shelf, shelf.formulas[0], Fraction(1), "us")


def test_a_draft_stays_a_draft() -> None:
    one = made("vegetable 6 cup onions, chopped", standing="draft")
    assert (one.document.standing, one.document.adapts) == ("draft", "")
    assert one.reviewed is not None
    assert not one.reviewed.held_back


def test_a_kind_that_the_rule_on_batches_passes_over_gets_the_warning_too(run: Run) -> None:
    """Doubling is advised against for every canned product (USDA Complete Guide, Guide 1, p. 1-30; read)."""
    status, out, _ = run("restate", "KV-130", "--batch", "2", *ON)
    assert status == 0
    assert "set/batch" not in out
    assert "one after the other" in out
