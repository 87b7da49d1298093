"""Puts a fault of the grammar into words: what was found, what was expected, and the line to copy."""

from brimline._patterns import pattern
from brimline.findings import Finding, Span
from brimline.text import Text
from brimline.tree.grammar import Fault
from brimline.tree.near import nearest
from brimline.tree.rewrites import offer
from brimline.tree.rows import HEADERS, SECTIONS, Row, first_word, shown
from brimline.tree.words import expected

RULE = "writing/syntax"
WHY = "A line that cannot be read is left out of every sum and every comparison."
_NUMBER_LIKE = pattern(r"[-+−]?[0-9½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]")
_NUMBER_RULE = (
    "A number has up to five digits and four decimals, no sign and no exponent; "
    "a fraction is proper, in halves, thirds, quarters, fifths, sixths, eighths or sixteenths."
)

# One line of each kind, to go by where no line can be offered for copying.
SAMPLES = {
    "header": "product   jam",
    "section": "process boiling-water",
    "take": "sweetener  7 cup  sugar, granulated",
    "pack": "headspace  1/4 in",
    "process": "half-pint, pint: 5 min to 1000 ft, 10 min to 6000 ft, 15 min above",
    "keep": "sealed  12 months, cool, dark, dry",
    "changes": "sweetener  half as honey, for a honey class",
    "evidence": "tested  2025-06-14, test kitchen, report 31",
}


def explain(text: Text, row: Row, fault: Fault) -> Finding:
    """The finding for a row that its start of the grammar could not read."""
    body = row.body
    found = shown(body[fault.start : fault.end])
    says = f"Found {f'`{found}`' if found else 'the end of the line'}; expected {expected(fault.expected)}."
    offered = offer(row.kind, body, fault)
    if offered:
        says += f" {offered.says}" if offered.says else ""
        copy = row.line_with(offered.body + offered.comment)
        instead = f"Write `{offered.body}`."
    else:
        copy = ""
        if _NUMBER_LIKE.match(found) and "INT" in fault.expected:
            says += f" {_NUMBER_RULE}"
        instead = f"Write the line like this one: `{SAMPLES[row.kind]}`."
    end = row.offset + fault.end
    return text.finding(Span(row.offset + fault.start, end), RULE, says, WHY, instead, copy=copy, section=row.section)


def stray(text: Text, row: Row) -> Finding:
    """The finding for a line at the left edge that is neither a header nor the word of a section."""
    word = first_word(row.body)
    span = Span(row.offset, row.offset + len(row.body))
    if row.section == "?":
        says = f"`{shown(word)}` is not a section; the sections are {', '.join(SECTIONS)}. Its lines are not read."
        return text.finding(span, RULE, says, WHY, "Write the section's own word, at the left edge.")
    near = nearest(word, (*SECTIONS, *HEADERS))
    says = f"`{shown(word)}` stands at the left edge, where only a header or the word of a section can stand."
    if near:
        says += f" The nearest is `{near}`."
    instead = "Indent the line by two blanks if it belongs to the section above."
    copy = "  " + row.line_with(row.body) if row.section else ""
    return text.finding(span, RULE, says, WHY, instead, copy=copy, section=row.section)


def homeless(text: Text, row: Row) -> Finding:
    """The finding for the first indented line that stands in no section."""
    says = "An indented line belongs to a section, and no section is open here."
    span = Span(row.offset, row.offset + len(row.body))
    copy = row.body if first_word(row.body) in (*HEADERS, *SECTIONS) else ""
    instead = f"Open a section above it ({', '.join(SECTIONS)}), or start the line at the left edge if it is a header."
    return text.finding(span, RULE, says, WHY, instead, copy=copy)


def bad_step(text: Text, row: Row, says: str, body: str) -> Finding:
    """The finding for a line of `make` that is neither a step nor the continuation of one; `body` is what to write."""
    span = Span(row.offset, row.offset + len(row.body))
    return text.finding(span, RULE, says, WHY, f"Write `{shown(body)}`.", copy=row.line_with(body), section=row.section)
