"""Reviewing what changed and what departs from it gives the answer of two full reviews."""

from random import Random

import pytest
from edits_at_random import collection, edited, snapshot
from hypothesis import given, settings
from hypothesis import strategies as st
from repositories import DAY, prints

from brimline.gate import Snapshot, gate
from brimline.gate.affected import affected, changed
from brimline.gate.shelves import ruling, shelf_for
from brimline.review import review
from brimline.review.fingerprint import fingerprint
from brimline.shelf import Book, Shelf

START = collection()
RECORDS = {"collection_yaml": b"name: A program\nhold-back: [quality]\n"}
BASE = snapshot(START, **RECORDS)


def everything(one: Snapshot) -> set[str]:
    """The fingerprints of a whole review, judged by the records of the base."""
    reviewed = review(shelf_for(one, ruling(BASE, "x"), DAY))
    return {fingerprint(formula.code, finding) for formula in reviewed.formulas for finding in formula.findings}


KNOWN = everything(BASE)


@settings(max_examples=14)
@given(st.integers(0, 10**9))
def test_the_answer_is_that_of_full_reviews(seed: int) -> None:
    head = snapshot(edited(START, Random(seed)), **RECORDS)
    some, all_ = gate(BASE, head, BASE, DAY), gate(BASE, head, BASE, DAY, everything=True)
    assert prints(some) == prints(all_)
    assert (some.mended, some.held_back, some.changed) == (all_.mended, all_.held_back, all_.changed)
    # Found without the gate: every finding of a full review of the head that a full review of the base has not.
    assert everything(head) - KNOWN <= {one for _, one, _ in prints(some)}


@settings(max_examples=20)
@given(st.integers(0, 10**9))
def test_only_what_can_differ_is_looked_at_and_all_of_it(seed: int) -> None:
    head = snapshot(edited(START, Random(seed)), **RECORDS)
    rules = ruling(BASE, "x")
    was, now = shelf_for(BASE, rules, DAY), shelf_for(head, rules, DAY)
    paths = changed(BASE, head)
    reached = affected(was, now, paths)
    assert len(reached) < len(START)
    for shelf in (was, now):
        for formula in (*shelf.formulas, *shelf.known):
            assert formula.path in reached or not ancestors(shelf, formula) & paths


def ancestors(shelf: Shelf, formula: Book) -> set[str]:
    """The paths of everything a formula departs from, as the parser reads it."""
    found: set[str] = set()
    waiting = [formula]
    while waiting:
        document = waiting.pop().read.document
        for parent in shelf.by_code(document.adapts, formula) if document and document.adapts else ():
            if parent.path not in found:
                found.add(parent.path)
                waiting.append(parent)
    return found


@pytest.mark.parametrize("seed", range(3))
def test_there_and_back_brings_nothing(seed: int) -> None:
    head = snapshot(edited(START, Random(seed)), **RECORDS)
    assert prints(gate(head, head, BASE, DAY, everything=True)) == []
    back = gate(head, BASE, BASE, DAY)
    assert {one for _, one, _ in prints(back)} >= KNOWN - everything(head)
