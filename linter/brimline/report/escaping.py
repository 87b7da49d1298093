"""One function per place that text can be printed to, each making what could steer that place into plain text.

`sink.py` does it for terminals and logs, `escaped` in `markup.py` for HTML and XML. Everything here first makes visible
what does not print, so that no control character, direction mark or half character is left in any report that a person
reads.
"""

import re

from brimline.report.sink import visible

# What starts something in Markdown or in the markup inside it; a backslash before it makes it plain.
_MARKS = re.compile(r"[\\`*_{}\[\]()|~!^<>&]")
# What hosts of code link or announce in plain prose: names, numbers of requests, addresses, formulas of mathematics.
# Inside a code span all of them leave it alone.
_LINKED = re.compile(r"(?:@|\$|#(?=\w)|://|(?<=www)\.)+", re.IGNORECASE)
# What would start a heading, a list or a rule at the start of a line.
_START = re.compile(r"^\s*(?:[-+=#]|\d+(?=[.)](?:\s|$)))")
_ENTITIES = {"<": "&lt;", ">": "&gt;", "&": "&amp;"}
# What a spreadsheet takes for the start of a formula, in wide letters too.
_FORMULA = ("=", "+", "-", "@", "|", "＝", "＋", "－", "＠")
_NOT_A_NAME = re.compile(r"[^A-Za-z0-9._~/-]")


def markdown(text: str) -> str:
    """A text that shows in Markdown as it stands: no markup, no link, no mention, no heading."""
    out, at = [], 0
    shown = visible(text)
    for found in _LINKED.finditer(shown):
        out += [_marked(shown[at : found.start()]), f"`{found.group()}`"]
        at = found.end()
    whole = "".join([*out, _marked(shown[at:])])
    return _START.sub(
        lambda start: f"{start.group()}\\" if start.group()[-1].isdigit() else f"\\{start.group().lstrip()}", whole
    )


def code_span(text: str) -> str:
    """A text as a code span of Markdown, its fence longer than any run of backticks in it."""
    shown = visible(text).strip()
    if not shown:
        return ""
    longest = max((len(run) for run in re.findall("`+", shown)), default=0)
    fence = "`" * (longest + 1)
    blank = " " if shown.startswith("`") or shown.endswith("`") else ""
    return f"{fence}{blank}{shown}{blank}{fence}"


def cell(text: str) -> str:
    """A text for a cell of a CSV file, quoted, that no spreadsheet takes for a formula."""
    shown = visible(text)
    guard = "'" if shown.lstrip(" '\"").startswith(_FORMULA) else ""
    doubled = shown.replace('"', '""')
    return f'"{guard}{doubled}"'


def log(text: str) -> str:
    """A text inside a line of a log that starts otherwise; the older commands are obeyed wherever they stand."""
    return visible(text).replace("##[", "## [")


def command_text(text: str) -> str:
    """The message of a workflow command."""
    return log(text).replace("%", "%25")


def command_value(text: str) -> str:
    """The value of a property of a workflow command."""
    return command_text(text).replace(":", "%3A").replace(",", "%2C")


def prose(text: str) -> str:
    """A message of SARIF, in which square brackets before round ones would be a link."""
    return visible(text).replace("](", "] (")


def address(path: str) -> str:
    """A path as a relative reference of RFC 3986: percent-encoded, with forward slashes, never a scheme or a host."""
    try:
        data = path.encode("utf-8", "surrogateescape")
    except UnicodeEncodeError:
        data = path.encode("utf-8", "surrogatepass")
    letters = data.decode("latin-1")
    encoded = _NOT_A_NAME.sub(lambda found: f"%{ord(found.group()):02X}", letters)
    # Two slashes at the start would name a host.
    return re.sub("^/+", lambda found: "%2F" * len(found.group()), encoded)


def whole_text(text: str) -> str:
    """The text without half characters, which JSON in ASCII could only hold as escapes that few readers accept."""
    return text if text.isascii() else text.encode("utf-8", "replace").decode("utf-8")


def _marked(text: str) -> str:
    return _MARKS.sub(lambda found: _ENTITIES.get(found.group()) or f"\\{found.group()}", text)
