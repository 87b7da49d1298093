"""The shelf: formulas by code, the collections they belong to and their settings; loading, no judgement."""

from brimline.shelf.books import Book
from brimline.shelf.loading import STDIN, STDIN_PATH, load_shelf, shelf_from, shelf_of
from brimline.shelf.records import RECORDS, REGISTER, VARIANCES
from brimline.shelf.values import Collection, Refusal, Settings, Shelf

__all__ = [
    "RECORDS",
    "REGISTER",
    "STDIN",
    "STDIN_PATH",
    "VARIANCES",
    "Book",
    "Collection",
    "Refusal",
    "Settings",
    "Shelf",
    "load_shelf",
    "shelf_from",
    "shelf_of",
]
