"""The parts of a chart: the frame with title and description, hatchings, words, scales. Nothing hangs on colour."""

from collections.abc import Sequence

from brimline.report.look import cells
from brimline.report.markup import Element, Node, element
from brimline.report.sink import visible

# Width of every chart in its own units; shown from 288 px (a phone 320 px wide) to 416 px.
WIDTH = 320.0
# Text in a chart: 14 units are 12.6 px on the narrowest screen and 18 px on a wide one.
SIZE = 14
# From the palette of the house: contrast on white 21, 6.1, 9.2, 7.0 by the WCAG 2.1 formula.
INK, UNSAFE, UNTESTED, GREY = "#000000", "#A84300", "#004B7A", "#595959"
LEVEL_INK = {"unreadable": UNSAFE, "unsafe": UNSAFE, "untested": UNTESTED, "quality": GREY, "form": GREY}
# Letters of a sans face at 14 units are about 7.5 wide; a label longer than the chart is cut, the table has it whole.
LETTERS = 42
HATCHES = ("slant", "dots", "cross", "upright", "flat", "plain")


def figure(name: str, title: str, description: str, height: float, parts: Sequence[Node], table: Element) -> Element:
    """A chart with its title and description for those who do not see it, and the table with the same numbers."""
    ids = f"{name}-title", f"{name}-desc"
    drawn = element(
        "svg",
        element("title", title, id=ids[0]),
        element("desc", description, id=ids[1]),
        element("defs", *(_hatch(name, one) for one in HATCHES)),
        *parts,
        viewBox=f"0 0 {WIDTH:g} {height:.0f}",
        role="img",
        aria_labelledby=" ".join(ids),
    )
    return element("figure", element("figcaption", title), drawn, element("p", description, class_="says"), table)


def hatched(name: str, kind: str) -> str:
    """The fill of a hatching of one chart."""
    return f"url(#{name}-{kind})"


def _hatch(name: str, kind: str) -> Element:
    """Lines and dots at least a unit thick, so that they live through a copying machine."""
    lines = {
        "slant": "M-2,2 l4,-4 M0,8 l8,-8 M6,10 l4,-4",
        "cross": "M0,0 l8,8 M8,0 l-8,8",
        "upright": "M4,0 v8",
        "flat": "M0,4 h8",
    }
    ground = element("rect", width=8, height=8, fill="#FFFFFF")
    if kind == "dots":
        marks: tuple[Element, ...] = (element("circle", cx=4, cy=4, r=1.6, fill=INK),)
    else:
        marks = (element("path", d=lines[kind], stroke=INK, stroke_width="1.2", fill="none"),) if kind in lines else ()
    return element("pattern", ground, *marks, id=f"{name}-{kind}", width=8, height=8, patternUnits="userSpaceOnUse")


def words(x: float, y: float, text: str, anchor: str = "start", ink: str = INK, weight: str = "normal") -> Element:
    """A word in a chart, cut to the width of the chart."""
    shown = cut(text)
    return element("text", shown, x=x, y=y, text_anchor=anchor, fill=ink, font_size=str(SIZE), font_weight=weight)


def cut(text: str, letters: int = LETTERS) -> str:
    """A text cut to so many columns, with three dots where something is missing."""
    shown = visible(text)
    if cells(shown) <= letters:
        return shown
    while shown and cells(shown) > letters - 3:
        shown = shown[:-1]
    return f"{shown.rstrip()}..."


def lines_of(text: str, letters: int = LETTERS) -> list[str]:
    """A text in lines of at most so many columns."""
    from brimline.report.look import wrapped

    return wrapped(text, letters)


def rule(x1: float, y1: float, x2: float, y2: float, dash: str = "", ink: str = INK, thick: str = "1.5") -> Element:
    """A straight line."""
    if dash:
        return element("line", x1=x1, y1=y1, x2=x2, y2=y2, stroke=ink, stroke_width=thick, stroke_dasharray=dash)
    return element("line", x1=x1, y1=y1, x2=x2, y2=y2, stroke=ink, stroke_width=thick)


def box(x: float, y: float, wide: float, high: float, fill: str) -> Element:
    """A rectangle with an outline that does not hang on its filling."""
    return element("rect", x=x, y=y, width=max(wide, 0.5), height=high, fill=fill, stroke=INK, stroke_width="1.2")


def marker(x: float, y: float, shape: str, ink: str = INK, size: float = 6) -> Element:
    """A mark told by its shape: `square` (hollow), `circle` (filled), `triangle`, `cross`, `diamond`."""
    if shape == "circle":
        return element("circle", cx=x, cy=y, r=size, fill=ink, stroke=ink, stroke_width="1.5")
    if shape == "square":
        return element("rect", x=x - size, y=y - size, width=2 * size, height=2 * size, fill="#FFFFFF", stroke=ink,
                       stroke_width="2")  # fmt: skip
    path = {
        "triangle": f"M{x:.1f},{y - size:.1f} l{size:.1f},{2 * size:.1f} h{-2 * size:.1f} z",
        "diamond": f"M{x:.1f},{y - size:.1f} l{size:.1f},{size:.1f} l{-size:.1f},{size:.1f} l{-size:.1f},{-size:.1f} z",
        "cross": f"M{x - size:.1f},{y - size:.1f} l{2 * size:.1f},{2 * size:.1f} m0,{-2 * size:.1f} l{-2 * size:.1f},{2 * size:.1f}",
    }[shape]
    filled = ink if shape != "cross" else "none"
    return element("path", d=path, fill=filled, stroke=ink, stroke_width="2")


def halo(x1: float, y1: float, x2: float, y2: float) -> Element:
    """A line with white on both sides, to be seen on a hatching."""
    return element("g", rule(x1, y1, x2, y2, ink="#FFFFFF", thick="5"), rule(x1, y1, x2, y2))


def spread_bar(low: float, high: float, y: float) -> list[Node]:
    """From the least to the most: a line with ends, white around it."""
    ends = [(low, y, high, y), (low, y - 5, low, y + 5), (high, y - 5, high, y + 5)]
    return [*(rule(*one, ink="#FFFFFF", thick="5") for one in ends), *(rule(*one, thick="2") for one in ends)]


def ticks(most: float) -> list[float]:
    """Round numbers from nought to beyond the most, four to eight of them."""
    step = 10.0 ** len(str(int(most))) / 100 or 0.1
    for factor in (1, 2, 5, 10, 20, 50, 100):
        if most / (step * factor) <= 6:
            step *= factor
            break
    return [step * number for number in range(int(most / step) + 2)]
