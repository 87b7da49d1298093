"""The one way to HTML and SVG: a tree of elements, written by one function that makes every word plain text.

Tags and attributes come from closed lists that hold no script, no handler, no style and no address, so that a page
can neither run nor load anything whatever stands in a formula.
"""

from collections.abc import Iterable, Iterator

from msgspec import Struct

from brimline.report.sink import visible

HTML_TAGS = frozenset(
    [
        "html",
        "head",
        "meta",
        "title",
        "style",
        "body",
        "main",
        "header",
        "footer",
        "section",
        "h1",
        "h2",
        "h3",
        "p",
        "div",
        "span",
        "strong",
        "ul",
        "ol",
        "li",
        "dl",
        "dt",
        "dd",
        "table",
        "caption",
        "thead",
        "tbody",
        "tr",
        "th",
        "td",
        "figure",
        "figcaption",
        "svg",
        "desc",
        "defs",
        "pattern",
        "rect",
        "line",
        "path",
        "circle",
        "g",
        "text",
        "tspan",
    ]
)
VOID = frozenset({"meta"})
ATTRIBUTES = frozenset(
    [
        "lang",
        "charset",
        "name",
        "content",
        "http-equiv",
        "id",
        "class",
        "role",
        "scope",
        "colspan",
        "tabindex",
        "aria-label",
        "aria-labelledby",
        "aria-describedby",
        "aria-hidden",
        "viewBox",
        "width",
        "height",
        "x",
        "y",
        "x1",
        "x2",
        "y1",
        "y2",
        "cx",
        "cy",
        "r",
        "d",
        "points",
        "fill",
        "stroke",
        "stroke-width",
        "stroke-dasharray",
        "stroke-linecap",
        "patternUnits",
        "text-anchor",
        "font-size",
        "font-weight",
        "transform",
    ]
)


class Element(Struct, frozen=True):
    """One element: its tag, its attributes in order, and what is in it: elements and plain words."""

    tag: str
    attributes: tuple[tuple[str, str], ...]
    children: tuple["Element | str", ...]


Node = Element | str


def element(tag: str, *children: Node, **attributes: str | float) -> Element:
    """An element; `aria_label` is written `aria-label`, `class_` is `class`, a number with at most one decimal.

    Raises ValueError for a tag or attribute that is not on the lists.
    """
    named = tuple((_name(name), _value(value)) for name, value in attributes.items())
    if tag not in HTML_TAGS or any(name not in ATTRIBUTES for name, _ in named):
        raise ValueError(f"{tag} with {[name for name, _ in named]} is not one of the elements a page may hold")
    return Element(tag, named, children)


def _name(name: str) -> str:
    return name.rstrip("_").replace("_", "-")


def _value(value: str | float) -> str:
    if isinstance(value, str):
        return value
    text = f"{value:.1f}"
    return "0" if text == "-0.0" else text.removesuffix(".0")


def escaped(text: str) -> str:
    """A text for an element or a quoted attribute, in ASCII; what does not print is made visible first."""
    plain = visible(text).replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
    quoted = plain.replace('"', "&quot;").replace("'", "&#39;")
    return quoted if quoted.isascii() else quoted.encode("ascii", "xmlcharrefreplace").decode("ascii")


def document(root: Element, style: str) -> str:
    """A whole page; `style` is ours and stands in it as it is.

    Raises ValueError for a style that could end its own element.
    """
    if "<" in style or not style.isascii():
        raise ValueError("a style may hold no markup")
    return "<!doctype html>\n" + "".join(_written(root, style)) + "\n"


def rendered(node: Node) -> str:
    """One element by itself."""
    return "".join(_written(node, ""))


def _written(node: Node, style: str) -> Iterator[str]:
    if isinstance(node, str):
        yield escaped(node)
        return
    attributes = "".join(f' {name}="{escaped(value)}"' for name, value in node.attributes)
    yield f"<{node.tag}{attributes}>"
    if node.tag == "style":
        yield style
    else:
        for child in node.children:
            yield from _written(child, style)
    if node.tag not in VOID:
        yield f"</{node.tag}>"
        yield "\n" if node.tag in _LINES else ""


# What a line ends after, so that the source can be read and compared line by line.
_LINES = frozenset({"head", "title", "style", "header", "footer", "section", "h1", "h2", "h3", "p", "div", "li", "dt",
                    "dd", "tr", "caption", "svg", "figure", "table", "text", "pattern"})  # fmt: skip


def table(caption: str, heads: Iterable[str], rows: Iterable[Iterable[str]], label: str) -> Element:
    """A data table whose first column names the row; wider than the page it scrolls by itself, by keyboard too."""
    head = element("tr", *(element("th", one, scope="col") for one in heads))
    body = []
    for first, *rest in rows:
        body.append(element("tr", element("th", first, scope="row"), *(element("td", one) for one in rest)))
    made = element("table", element("caption", caption), element("thead", head), element("tbody", *body))
    return element("div", made, class_="wide", role="region", aria_label=label, tabindex="0")
