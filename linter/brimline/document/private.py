"""Finds what points to a person in a record that is published: addresses and telephone numbers."""

import re

from brimline._patterns import pattern
from brimline._remember import remembered

_MAIL = pattern(r"[\w.+-]+@[\w-]+(?:\.[\w-]+)+")
# A country code and digits, or three groups of digits as North American numbers are written; never a date.
_PHONE = pattern(
    r"(?<![\w.-])(?:\+\d[\d ().-]{6,17}\d|(?:1[ .-])?\(?\d{3}\)?[ .-]{1,2}\d{3}[ .-]\d{4})(?![\w-])", re.ASCII
)
_STREET = pattern(
    r"\b\d{1,5} (?:[A-Z][\w'.-]{0,30} ){1,4}(?:street|st|road|rd|avenue|ave|lane|ln|drive|dr|boulevard|blvd|court|ct)\b",
    re.IGNORECASE | re.ASCII,
)


@remembered
def private(text: str) -> str:
    """What in a text points to a person (`an e-mail address`, `a telephone number`, `a street address`); empty if nothing."""
    for shape, called in (
        (_MAIL, "an e-mail address"),
        (_PHONE, "a telephone number"),
        (_STREET, "a street address"),
    ):
        if shape.search(text[:10_000]):
            return called
    return ""
