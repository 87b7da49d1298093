"""How a written name becomes words that can be compared: accents, case, plurals, spellings, hyphens."""

import re
import unicodedata
from collections.abc import Container, Iterable
from functools import lru_cache

# What stands in parentheses explains; a comma inside may have cut it off from one of them.
_PARENTHESES = re.compile(r"\([^()]*\)|\([^()]*$|^[^()]*\)")
_WORD = re.compile(r"[^\W_]+")
# One word, so that the colour of a skin and the word flesh elsewhere do not add up to it.
_WHITE_FLESH = re.compile(r"\bwhite[\s-]+flesh(?:ed)?\b")
_STRENGTH = re.compile(r"(\d+(?:\.\d+)?)\s*(?:%|percent\b|per cent\b)")

# Words whose plural or spelling the rules below would get wrong, and spellings that mean one thing.
_SINGLE = {
    "leaves": "leaf",
    "halves": "half",
    "molasses": "molasses",
    "asparagus": "asparagus",
    "hibiscus": "hibiscus",
    "citrus": "citrus",
    "swiss": "swiss",
    "chiles": "chile",
    "chilis": "chile",
    "chilies": "chile",
    "chillies": "chile",
    "chili": "chile",
    "chilli": "chile",
    "chilly": "chile",
    "cookies": "cookie",
    "calyces": "calyx",
    "colour": "color",
    "coloring": "color",
    "colouring": "color",
    "flavour": "flavor",
    "flavoured": "flavored",
    "unflavoured": "unflavored",
    "gelatine": "gelatin",
    "crystallised": "crystallized",
    "puree": "pureed",
    "purees": "pureed",
    "unsulphured": "unsulfured",
    "yoghurt": "yogurt",
    "catsup": "ketchup",
    "litre": "liter",
}


@lru_cache(maxsize=8192)
def single(word: str) -> str:
    """One word in the singular and in one spelling: `berries` is `berry`, `chillies` is `chile`.

    `word` is already folded (see `folded`). Words of three letters or fewer stay as they are.
    """
    if word in _SINGLE:
        return _SINGLE[word]
    if len(word) <= 3 or not word.endswith("s") or word.endswith(("ss", "us", "is")):
        return word
    if word.endswith("ies"):
        stem = word[:-3] + "y"
    elif word.endswith(("oes", "ches", "shes", "xes", "sses", "zzes")):
        stem = word[:-2]
    else:
        stem = word[:-1]
    return _SINGLE.get(stem, stem)


@lru_cache(maxsize=8192)
def folded(text: str) -> tuple[str, ...]:
    """The words of a text as written, without case, accents, apostrophes, hyphens and anything in parentheses.

    A strength stays one word: `5 %` is `5%`. `jalapeño` is `jalapeno`, `yellow-flesh` is two words.
    """
    text = unicodedata.normalize("NFKD", text)
    text = "".join(character for character in text if not unicodedata.combining(character)).casefold()
    text = _PARENTHESES.sub(" ", text).replace("'", "").replace("’", "")
    text = _WHITE_FLESH.sub("whiteflesh", text)
    strengths = [f"{found}%" for found in _STRENGTH.findall(text)]
    return (*_WORD.findall(_STRENGTH.sub(" ", text)), *strengths)


def words(text: str) -> tuple[str, ...]:
    """The words of a text, folded and in the singular, in the order written."""
    return tuple(single(word) for word in folded(text))


def named(written: Iterable[str], stop: Container[str], medium: Container[str]) -> tuple[str, ...]:
    """The folded words that name something: without `stop` words, and with what it stands in marked.

    Syrup after `in`, or pectin after `with`, is not a part of the food but makes another thing of it: it becomes
    `+syrup`, so that corn in syrup is not corn syrup.
    """
    kept: list[str] = []
    turned = False
    for word in written:
        turned = turned or word in ("in", "with")
        if turned and word in medium:
            kept.append(f"+{word}")
        elif word not in stop:
            kept.append(word)
    return tuple(kept)
