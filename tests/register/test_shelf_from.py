"""A shelf from bytes by path: which collection judges a formula, and by whose records."""

from datetime import date
from pathlib import Path

from brimline.review.engine import review
from brimline.shelf import load_shelf, shelf_from

from .conftest import SALSA, TODAY, sealed

FORMULA = SALSA.encode()


def test_the_nearest_collection_of_the_records_counts() -> None:
    files = {"a/x.formula": FORMULA, "a/b/y.formula": FORMULA, "z.formula": FORMULA, "a/readme.md": b""}
    shelf = shelf_from(files, TODAY, {"a/collection.yaml": b"name: A\n", "a/b/collection.yaml": b"name: B\n"})
    named = {book.path: shelf.settings(book).name for book in shelf.formulas}
    assert named == {"a/x.formula": "A", "a/b/y.formula": "B", "z.formula": ""}
    assert shelf.by_code("KV-101", shelf.formulas[0]) == (shelf.formulas[0],)


def test_records_of_another_revision_judge_and_those_beside_the_formulas_do_not() -> None:
    changed = SALSA.replace("1 cup                vinegar", "1/2 cup              vinegar")
    files = {"collection.yaml": b"set-aside: .x\n", "x.formula": changed.encode(), "register.json": sealed(changed)}
    assert not review(shelf_from(files, TODAY)).formulas[0].held_back
    base = {"collection.yaml": b"name: Valley\n", "register.json": sealed(SALSA)}
    done = review(shelf_from(files, TODAY, base))
    assert [one.row for one in done.formulas[0].findings] == ["seal-broken"]
    assert done.collections == ("Valley",)


def test_without_any_records_there_is_no_register_and_no_variance() -> None:
    shelf = shelf_from({"x.formula": FORMULA, "register.json": b"{"}, TODAY, records={})
    assert shelf.refusals == ()
    assert shelf.collections[0].register is None


def test_records_that_cannot_be_used_are_refused_by_their_path() -> None:
    shelf = shelf_from({"v/x.formula": FORMULA}, TODAY, {"v/collection.yaml": b"- x\n", "v/variances.yaml": b"x: 1\n"})
    assert [one.path for one in shelf.refusals] == ["v/collection.yaml", "v/variances.yaml"]


def test_folders_set_aside_are_known_and_reviewed_only_when_asked() -> None:
    files = {"x.formula": FORMULA, "class/y.formula": FORMULA}
    base = {"collection.yaml": b"set-aside: class\n"}
    shelf = shelf_from(files, TODAY, base)
    assert ([book.path for book in shelf.formulas], shelf.left_out) == (["x.formula"], ("class/y.formula",))
    asked = shelf_from(files, TODAY, base, asked=["class/y.formula"])
    assert [book.path for book in asked.formulas] == ["class/y.formula"]
    assert [book.path for book in asked.known] == ["x.formula"]


def test_bytes_and_a_folder_give_the_same_review(tmp_path: Path) -> None:
    changed = SALSA.replace("5 lb                 tomatoes", "4 lb                 tomatoes")
    files = {
        "collection.yaml": b"name: Valley\naltitude: 7000 ft\n",
        "register.json": sealed(SALSA, SALSA.replace("KV-101", "KV-109")),
        "variances.yaml": b"",
        "tested/x.formula": changed.encode(),
        "con/aux.formula": SALSA.replace("KV-101 Chile", "KV-102 Other").encode(),
    }
    for name, data in files.items():
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_bytes(data)
    day = date(2026, 7, 1)
    assert review(load_shelf([str(tmp_path)], day)) == review(shelf_from(files, day))
