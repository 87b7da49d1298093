"""The shelves of the tests about answers, and a call put to one of their formulas."""

from datetime import date
from functools import cache
from pathlib import Path

from brimline.review.suppose.answer import answered
from brimline.review.suppose.values import Answer, Call
from brimline.shelf import Book, Shelf, load_shelf

ROOT = Path(__file__).resolve().parents[2]
TODAY = date(2026, 1, 15)


@cache
def shelf(folder: str) -> Shelf:
    return load_shelf([str(ROOT / folder)], TODAY)


@cache
def found(code: str) -> tuple[Shelf, Book]:
    for folder in ("formulas/tested", "tests/published", "formulas/adapted", "formulas/classroom"):
        for book in shelf(folder).formulas:
            if book.code == code:
                return shelf(folder), book
    raise LookupError(code)


def call(code: str, words: str) -> Call:
    return answered(*found(code), words)


def answer(code: str, words: str) -> Answer:
    return call(code, words).answers[0]
