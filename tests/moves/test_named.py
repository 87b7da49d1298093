"""Which ingredients of the table the words of a step name, with the words that name them."""

import pytest

from brimline.moves.mentioned import mentioned
from brimline.moves.named import named

Found = list[tuple[str, str]]


@pytest.mark.parametrize(
    ("words", "wanted"),
    [
        ("sugar", [("sugar, granulated", "sugar")]),
        ("add the plums , then sugar", [("plum", "plums"), ("sugar, granulated", "sugar")]),
        ("add 2 cups sugar", [("sugar, granulated", "sugar")]),
        # The longest name, of two words and of five.
        ("stir in lemon juice now", [("lemon juice", "lemon juice")]),
        (
            "the syrup of sugar and water",
            [("sugar syrup", "syrup of sugar"), ("water", "water")],
        ),
        ("pour canned chipotle in adobo sauce over", [("chipotle in sauce", "canned chipotle in adobo sauce")]),
        # The last words of a name may be one of their own, and are no second ingredient.
        ("pour canned mandarin oranges in syrup over", [("tangerine, canned", "canned mandarin oranges in syrup")]),
        ("pour canned fruit cocktail in syrup over", [("fruit cocktail, canned", "canned fruit cocktail in syrup")]),
        # Words at both ends that add nothing are not its own.
        ("chopped plums", [("plum", "plums")]),
        ("fresh ripe chopped plums", [("plum", "plums")]),
        ("plums chopped", [("plum", "plums")]),
        ("plums sliced thinly", [("plum", "plums")]),
        ("ripe plums sliced", [("plum", "plums")]),
        # Many words before a name cut nothing off it: this is no corn and a syrup.
        ("fresh clean cold yellow sweet corn syrup", [("corn syrup", "corn syrup")]),
        ("fresh clean cold smooth light corn syrup", [("corn syrup, light", "light corn syrup")]),
        # The longest name decides, though a shorter one begins before it.
        ("stir in hot red pepper sauce", [("hot sauce", "pepper sauce")]),
        # No name goes over an `and`, and none begins with an `and` or an `of`.
        ("water and the lime juice", [("water", "water"), ("lime juice", "lime juice")]),
        ("and the light corn syrup", [("corn syrup, light", "light corn syrup")]),
        ("of light corn syrup", [("corn syrup, light", "light corn syrup")]),
        ("red and green", []),
        # To fish something out is to take it out; fish is a food.
        ("fish out the plums", [("plum", "plums")]),
        ("boil , fish the plums out", [("plum", "plums")]),
        ("now fish the plums out", [("plum", "plums")]),
        ("add the fish", [("fish", "fish")]),
        ("add fish sauce", [("fish sauce", "fish sauce")]),
        ("salt fish", [("salt, table", "salt"), ("fish", "fish")]),
        ("boil and stir", []),
    ],
)
def test_what_words_name(words: str, wanted: Found) -> None:
    tokens = (*words.split(), ".")
    assert [(one.entry.name, " ".join(tokens[one.start : one.end])) for one in named(tokens)] == wanted


@pytest.mark.parametrize(
    ("sentence", "wanted"),
    [
        ("Add the sugar.", [("sugar, granulated", "sugar")]),
        ("Add the sugar to the plums.", [("sugar, granulated", "sugar")]),
        ("Add the sugar and boil with the plums until thick.", [("sugar, granulated", "sugar")]),
        ("Add 2 tbsp sugar.", [("sugar, granulated", "sugar")]),
        ("Add 2 tbsp of sugar.", [("sugar, granulated", "sugar")]),
        ("Add 2 tbsp of the sugar.", [("sugar, granulated", "sugar")]),
        (
            "Add the plums, sugar and salt.",
            [("plum", "plums"), ("sugar, granulated", "sugar"), ("salt, table", "salt")],
        ),
        ("Stir in wumpberries and sugar.", [("sugar, granulated", "sugar")]),
        ("Boil the plums.", []),
    ],
)
def test_what_a_sentence_tells_to_add(sentence: str, wanted: Found) -> None:
    assert [(entry.name, words) for words, entry in mentioned(sentence.lower())] == wanted
