"""A weighing as one HTML page that needs nothing else: charts with their tables, no script, nothing loaded.

It can be read in grey, by a screen reader, on a narrow screen and on paper (Letter and A4); every word of a formula
goes through `markup`, and the same weighing gives the same bytes.
"""

from collections.abc import Iterable, Iterator

from brimline.report.chart_plane import plane
from brimline.report.chart_times import changes, times
from brimline.report.charts import before_and_after, ingredients
from brimline.report.label import claim_lines, label_lines
from brimline.report.look import Look
from brimline.report.markup import Element, Node, document, element
from brimline.report.weighing import WHAT_IT_SAYS, facts, sources_of
from brimline.report.words import NOTICE, sentence
from brimline.review.beside import Beside

# 16 px is 12 pt on paper. Text is black on white or of a contrast over 6 to 1 (WCAG 2.1 formula).
STYLE = """
body{font:1rem/1.5 sans-serif;color:#000000;background:#FFFFFF;margin:0 auto;padding:1rem;max-width:42rem}
h1{font-size:1.6rem;line-height:1.25;margin:0 0 .5rem}h2{font-size:1.25rem;margin:2rem 0 .5rem}
p,li,dd,h1{overflow-wrap:anywhere}td,th{overflow-wrap:break-word}p{margin:.5rem 0}.says{font-size:1rem}
.caution{border:3px solid #000000;padding:.5rem 1rem;margin:1rem 0}
figure{margin:1rem 0 2rem}figcaption{font-weight:bold}svg{display:block;width:100%;max-width:26rem;height:auto;font-family:sans-serif}
.wide{overflow-x:auto}.wide:focus{outline:3px solid #004B7A}
table{border-collapse:collapse;margin:.5rem 0}caption{text-align:left;font-weight:bold}
th,td{border:1px solid #595959;padding:.2rem .5rem;text-align:left;vertical-align:top;min-width:3.5rem}th[scope=row]{min-width:8rem}
dt{font-weight:bold}dd{margin:0 0 .4rem 1rem}
.code{display:none}
@page{margin:15mm}
@media print{body{max-width:180mm;padding:0}svg,tr,dd,li,.caution{break-inside:avoid}thead{display:table-header-group}
h2,figcaption,caption,dt,thead{break-after:avoid}tbody tr:first-child{break-before:avoid}.code{display:inline}.wide{overflow:visible}svg{max-width:110mm}}
""".strip()


HELD_BACK = "brimline review holds this formula back; what each move means stands beside its tested formula below."


def weighing_page(shown: Beside, look: Look, program: str, notices: Iterable[str] = ()) -> str:
    """The page in ASCII, ended by a line feed."""
    title = f"{shown.weighed.code or '(no code)'} {shown.weighed.title or '(no title)'}: what the batch is"
    head = element(
        "head",
        element("meta", charset="utf-8"),
        element("meta", http_equiv="Content-Security-Policy", content=_policy()),
        element("meta", name="viewport", content="width=device-width, initial-scale=1"),
        element("meta", name="referrer", content="no-referrer"),
        element("title", title),
        element("style"),
    )
    told = list(notices)
    main = element("main", *_head(shown, look, told), *_charts(shown), *_facts(shown))
    body = element("body", main, element("footer", *_foot(shown, program, told)))
    return document(element("html", head, body, lang="en"), STYLE)


def _policy() -> str:
    """Nothing is loaded and nothing runs; the one style is allowed by its hash, so that none put in by a text is."""
    from base64 import b64encode
    from hashlib import sha256

    digest = b64encode(sha256(STYLE.encode("ascii")).digest()).decode("ascii")
    return f"default-src 'none'; style-src 'sha256-{digest}'; base-uri 'none'; form-action 'none'"


def _head(shown: Beside, look: Look, notices: list[str]) -> Iterator[Node]:
    weighed = shown.weighed
    yield element("h1", f"{weighed.code or '(no code)'} {weighed.title or '(no title)'}")
    for notice in notices:
        yield element("p", element("strong", notice))
    departs = f"; departs from {shown.comparison.against}" if shown.comparison is not None else ""
    kind = f"{weighed.kind or 'no product'}, {weighed.standing or 'no standing'}{departs}. "
    file = weighed.path if weighed.path.startswith("<") else look.from_here(weighed.path)
    yield element("p", f"{kind}File: {file}")
    if weighed.unread:
        few = "1 thing in it" if weighed.unread == 1 else f"{weighed.unread:,} things in it"
        yield element(
            "p",
            element(
                "strong", f"{few} could not be read; all below holds for the rest only. brimline review shows where."
            ),
        )
    caution = [element("p", WHAT_IT_SAYS), element("p", NOTICE)]
    if shown.comparison is not None and shown.comparison.reviewed.held_back:
        caution.insert(0, element("p", element("strong", HELD_BACK)))
    yield element("div", *caution, class_="caution", role="note", aria_label="caution")


def _charts(shown: Beside) -> Iterator[Element]:
    weighed, tested = shown.weighed, shown.tested
    composition = [one for one in (ingredients(weighed), before_and_after(weighed)) if one is not None]
    yield _section(shown, "composition", "Composition by mass", composition)
    yield _section(shown, "sugar-acid", "Sugar and acid", [plane(weighed, tested)])
    minutes = times(weighed, tested)
    nothing = element("p", "The formula has no process table: no tested time.")
    yield _section(shown, "minutes", "Process and altitude", [minutes if minutes is not None else nothing])
    if shown.comparison is not None:
        moves = changes(shown.comparison)
        same = element("p", f"No move from {shown.comparison.against} was found.")
        yield _section(shown, "beside", "Beside its tested formula", [moves if moves is not None else same])


def _facts(shown: Beside) -> Iterator[Element]:
    yield _section(shown, "figures", "The figures", [_listed(facts(shown.weighed))])
    yield _section(
        shown,
        "label",
        "Facts for a label",
        [_listed([*label_lines(shown.weighed.label), *claim_lines(shown.weighed.claim)])],
    )
    sources = element("ul", *(element("li", one) for one in sources_of(shown.weighed)))
    yield _section(shown, "sources", "Where the figures come from", [sources])


def _section(shown: Beside, name: str, heading: str, children: Iterable[Node]) -> Element:
    """A section; on paper its heading has the code too, so that a loose sheet can be told."""
    code = element("span", f"{shown.weighed.code or '(no code)'}: ", class_="code")
    return element("section", element("h2", code, heading, id=name), *children, aria_labelledby=name)


def _listed(lines: Iterable[tuple[str, str]]) -> Element:
    """Labelled lines as a list of terms; a line without a word belongs to the one before."""
    parts: list[Element] = []
    for label, text in lines:
        if label or not parts:
            parts.append(element("dt", label or "also"))
        parts.append(element("dd", sentence(text)))
    return element("dl", *parts)


def _foot(shown: Beside, program: str, notices: list[str]) -> Iterator[Element]:
    yield element("p", f"{shown.weighed.code or '(no code)'}: {program.strip()}. No script, no address is loaded.")
    for notice in notices:
        yield element("p", element("strong", notice))
