"""Whole, clean formulas in few words, and shelves made of them, for tests of what lies between formulas."""

from datetime import date

from brimline.shelf import Settings, Shelf, shelf_of

TODAY = date(2027, 2, 1)

BODY = """\
formula {code} {title}
product   jam
standing  {standing}
{headers}finish    full rolling boil 1 min
yield     9 half-pint

take
  fruit      5 1/2 cup            gooseberries, crushed
  pectin     1 box of 1 3/4 oz    pectin, regular powdered
  acid       2 tbsp               lemon juice, bottled
  sweetener  7 cup                sugar, granulated

make
  - Stir in the lemon juice and the pectin. Bring to a full rolling boil over high heat, stirring.
  - Add the sugar all at once, return to a full rolling boil and boil hard for 1 minute.
  - Fill to 1/4 inch of the rim, wipe the rims and close. Process, starting the time when the water boils.

pack
  jar        half-pint, pint
  prepare    sterile
  fill       hot
  headspace  1/4 in
  lid        two-piece

process boiling-water
  half-pint, pint: 5 min to 1000 ft, 10 min to 6000 ft, 15 min above

keep
  stand      12 h
  sealed     12 months, cool, dark, dry
{evidence}"""


def formula(code: str, title: str = "Gooseberry jam", adapts: str = "", evidence: str = "", standing: str = "",
            headers: str = "") -> str:  # fmt: skip
    return BODY.format(
        code=code,
        title=title,
        standing=standing or ("adapted" if adapts else "tested"),
        headers=(f"adapts    {adapts}\n" if adapts else "") + headers,
        evidence=f"\nevidence\n{evidence}" if evidence else "",
    )


def on_shelf(*texts: str, settings: Settings | None = None, today: date = TODAY) -> Shelf:
    return shelf_of({f"{n}.formula": text for n, text in enumerate(texts)}, today, settings)
