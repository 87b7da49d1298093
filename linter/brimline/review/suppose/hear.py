"""The caller's words in one spelling: small letters, plain hyphens, numbers as digits; split into clauses."""

import re
import unicodedata
from fractions import Fraction

LONGEST = 400
_GLYPHS = {"½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
_NUMBERS = {
    "one": "1",
    "two": "2",
    "three": "3",
    "four": "4",
    "five": "5",
    "six": "6",
    "seven": "7",
    "eight": "8",
    "nine": "9",
    "ten": "10",
    "twelve": "12",
    "a couple of": "2",
    "a couple": "2",
    "a few": "3",
    "a dozen": "12",
}
_PARTS = {"half": 2, "halves": 2, "third": 3, "thirds": 3, "quarter": 4, "quarters": 4, "fourth": 4, "fourths": 4}
_PARTS |= {"fifth": 5, "fifths": 5, "tenth": 10, "tenths": 10, "eighth": 8, "eighths": 8}

# What people say before they come to it; taken off the front until nothing of it is left.
_LEAD = re.compile(
    r"(?:hello|hi|please|ok|so|and|but|also|then|just|what (?:if|about|happens if)|how about|suppose|would it be"
    r"|is it|is that|it is|ok(?:ay)? to|all right to|fine to|possible to|can (?:i|we|you)|could (?:i|we)|may (?:i|we)"
    r"|should (?:i|we)|do (?:i|we)(?: have to| need to)?|i am going to|i (?:would like|want|need|plan) to|i will|i would"
    r"|if (?:i|we)|i|we|using|use|used|try|making|make|cook|have(?! no\b)|do(?! not\b)|make (?:it|this|them)|making it|made|do it)\b ?"
)
_TAIL = re.compile(r" ?\b(?:please|instead|too|as well|only|ok|all right|this year|this time|for me|thanks|thank you)$")
_SEAM = re.compile(
    r"\s*(?:[,;.:]+(?:\s+(?:and|but|or|plus|also|then)\b)*|\b(?:and then|and also|then|and|but|plus|or|with|at|in|using|because|since|for my|for our)\b)\s*"
)


def heard(words: str) -> str:
    """The words in one spelling. Numbers as digits and kitchen fractions, no accents, no hyphens, no question marks."""
    text = words.lower()
    for glyph, plain in _GLYPHS.items():
        text = text.replace(glyph, f" {plain}")
    text = unicodedata.normalize("NFKD", text)
    text = "".join(letter for letter in text if not unicodedata.combining(letter))
    text = re.sub(r"(?<=\d),(?=\d{3}(?!\d))", "", text)
    text = text.replace("%", " percent ").replace("per cent", "percent").replace("\u2044", "/")
    text = re.sub(r"['\u2019`\"]", "", text)
    text = re.sub(r"(?<=\d)(?=[a-z])", " ", text)
    text = re.sub(r"(?<=\d{3})\s*[-\u2013\u2014]\s*(?=\d{3})", " to ", text)
    text = re.sub(r"[-\u2010-\u2015_]+", " ", text)
    text = re.sub(r"[?!()]", " ", text)
    text = " ".join(re.sub(r"\.(?!\d)", " ", text).split())
    for word, digits in _NUMBERS.items():
        text = re.sub(rf"\b{word}\b", digits, text)
    text = re.sub(r"(\d) and (?:a |1 )?(half|third|quarter)\b", lambda m: f"{m[1]} 1/{_PARTS[m[2]]}", text)
    text = re.sub(r"(\d) and (\d+/\d+)", r"\1 \2", text)
    return re.sub(r"\bbetween (\d+) and (\d+)", r"\1 to \2", text)


def bare(clause: str) -> str:
    """A clause without what is only said in passing before and after it."""
    text = clause.strip()
    while found := _LEAD.match(text):
        if found.end() == len(text):
            break
        text = text[found.end() :]
    while found := _TAIL.search(text):
        if not found.start():
            break
        text = text[: found.start()]
    return text.strip()


def seams(text: str) -> list[tuple[str, str]]:
    """The pieces between commas and `and`, each with the seam before it as it stood."""
    out: list[tuple[str, str]] = []
    place, seam = 0, ""
    for found in _SEAM.finditer(text):
        if _in_number(text, found.start(), found.end()):
            continue
        out.append((seam, text[place : found.start()]))
        place, seam = found.end(), found.group()
    out.append((seam, text[place:]))
    return [(seam, piece) for seam, piece in out if piece.strip()]


def _in_number(text: str, start: int, end: int) -> bool:
    return text[start:end] == "." and text[start - 1 : start].isdigit() and text[end : end + 1].isdigit()


def number(text: str) -> Fraction | None:
    """`2`, `1 1/2`, `0.5`, `a`, `half a`, `a quarter`; None if it is no number."""
    words = [word for word in text.split() if word not in ("of", "the")]
    if words and words[-1] in ("a", "an") and len(words) > 1:
        words.pop()
    if words and words[0] in ("a", "an", "one") and len(words) == 1:
        return Fraction(1)
    if words and words[0] in ("a", "an", "one", "1") and len(words) == 2 and words[1] in _PARTS:
        return Fraction(1, _PARTS[words[1]])
    if len(words) == 1 and words[0] in _PARTS:
        return Fraction(1, _PARTS[words[0]])
    if len(words) == 2 and words[1] in _PARTS and words[0].isdigit():
        return Fraction(int(words[0]), _PARTS[words[1]])
    total = Fraction(0)
    for word in words:
        try:
            total += Fraction(word)
        except (ValueError, ZeroDivisionError):
            return None
    return total if words else None


def share(text: str) -> Fraction | None:
    """`half`, `a third`, `2/3`, `50 percent`, `all`; None if it is no share."""
    text = text.removesuffix(" of").removesuffix(" the").removesuffix(" of").strip()
    if text in ("all", "all of"):
        return Fraction(1)
    if text.endswith(" percent"):
        part = number(text.removesuffix(" percent"))
        return None if part is None else part / 100
    return number(text)
