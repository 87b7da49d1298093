"""A review as one HTML page that needs nothing else: no script, no picture, no address is loaded.

Meaning is in words and shapes, never in the colour alone, and the page reads the same printed in grey.
"""

from collections.abc import Iterator

from brimline.findings import Finding
from brimline.report.handed import Handed, counts, everything, parts, ranked, state, where, word
from brimline.report.markup import escaped
from brimline.report.words import NOTICE, WHAT_IT_DOES, gravest_first, level_counts, listed, sentence, standing
from brimline.review.values import Review, Reviewed

# Every colour of text has a contrast of at least 6 to 1 on white by the WCAG 2.1 formula; bars differ in width too.
STYLE = """
body{font:1rem/1.5 sans-serif;color:#000;background:#fff;max-width:45rem;margin:1.5rem auto;padding:0 1rem}
h1{font-size:1.6rem;line-height:1.25}h2{font-size:1.25rem;margin-top:2rem}h3{font-size:1rem;margin:0}
table{border-collapse:collapse}caption{text-align:left}th,td{text-align:left;padding:.2rem .8rem .2rem 0;border-bottom:1px solid #595959}
.finding{border-left:.2rem solid #595959;padding-left:.8rem;margin:1rem 0;break-inside:avoid}
.unsafe,.unreadable{border-left:.7rem double #a84300}.untested{border-left:.4rem solid #004b7a}
.finding p,.finding dl{margin:.3rem 0}dt{font-weight:bold}dd{margin:0 0 .3rem 0}code{overflow-wrap:anywhere}
.unsafe h3,.unreadable h3{color:#a84300}.untested h3{color:#004b7a}.quality h3,.form h3{color:#595959}
.caution{border:2px solid #000;padding:.6rem 1rem}
@media print{body{margin:0;max-width:none}@page{margin:15mm}}
""".strip()


def page(handed: Handed) -> str:
    """The review as a whole page in ASCII, formulas with unsafe findings first, every finding on it."""
    return "\n".join(_page(handed)) + "\n"


def _page(handed: Handed) -> Iterator[str]:
    review = handed.review
    title = _title(handed)
    yield "<!doctype html>"
    yield '<html lang="en">'
    yield "<head>"
    yield '<meta charset="utf-8">'
    yield f'<meta http-equiv="Content-Security-Policy" content="{_policy()}">'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield '<meta name="referrer" content="no-referrer">'
    yield f"<title>{escaped(title)}</title>"
    yield f"<style>{STYLE}</style>"
    yield "</head>"
    yield "<body>"
    yield "<main>"
    yield f"<h1>{escaped(title)}</h1>"
    yield from _head(handed)
    for number, one in enumerate(_told(review), 1):
        yield from _formula(number, one, handed)
    yield "</main>"
    yield "<footer>"
    yield f"<p>{escaped(handed.program)}</p>"
    yield "</footer>"
    yield "</body>"
    yield "</html>"


def _policy() -> str:
    """Nothing is loaded and nothing runs; the one style is allowed by its hash, so that none put in by a text is."""
    from base64 import b64encode
    from hashlib import sha256

    digest = b64encode(sha256(STYLE.encode("ascii")).digest()).decode("ascii")
    return f"default-src 'none'; style-src 'sha256-{digest}'; base-uri 'none'; form-action 'none'"


def _title(handed: Handed) -> str:
    named = listed(list(handed.review.collections))
    return f"{named}: {handed.headline}" if named else f"{handed.headline[0].upper()}{handed.headline[1:]}"


def _told(review: Review) -> list[Reviewed]:
    return [one for one in gravest_first(everything(review)) if one.findings]


def _head(handed: Handed) -> Iterator[str]:
    review = handed.review
    for notice in handed.notices:
        yield f"<p><strong>{escaped(notice)}</strong></p>"
    caution = f"{WHAT_IT_DOES} {NOTICE}" if review.held_back else WHAT_IT_DOES
    yield f'<p class="caution">{escaped(caution)}</p>'
    if review.refusals:
        yield "<h2>Not looked at</h2>"
        yield "<ul>"
        for each in review.refusals:
            why = " ".join(filter(None, [f"{each.reason}.", each.do]))
            yield f"<li><code>{escaped(each.path)}</code> {escaped(why)}</li>"
        yield "</ul>"
    pairs = ranked(review)
    if not pairs:
        return
    yield "<table>"
    yield "<caption>Findings by level</caption>"
    yield '<thead><tr><th scope="col">level</th><th scope="col">findings</th></tr></thead>'
    yield "<tbody>"
    for level, number in counts(pairs):
        yield f'<tr><th scope="row">{level.word}</th><td>{number:,}</td></tr>'
    yield "</tbody>"
    yield "</table>"
    yield '<nav aria-label="Formulas with findings">'
    yield "<ul>"
    for number, one in enumerate(_told(review), 1):
        found = level_counts(one.findings)
        yield f'<li><a href="#f{number}">{_name(one)}</a>: {state(one)}, {found}</li>'
    yield "</ul>"
    yield "</nav>"


def _name(one: Reviewed) -> str:
    return " ".join(filter(None, [escaped(one.code), escaped(one.title)])) or escaped(one.path)


def _formula(number: int, one: Reviewed, handed: Handed) -> Iterator[str]:
    yield f'<section aria-labelledby="f{number}">'
    yield f'<h2 id="f{number}">{_name(one)}</h2>'
    scale = f", read at {escaped(one.scale)} of its batch" if one.scale else ""
    departs = f"; departs from {escaped(one.departs_from)}{scale}" if one.departs_from else ""
    yield f"<p>{state(one).capitalize()}{departs}. File <code>{escaped(handed.path(one.path))}</code></p>"
    for finding in one.findings:
        yield from _finding(one, finding, handed)
    yield "</section>"


def _finding(one: Reviewed, finding: Finding, handed: Handed) -> Iterator[str]:
    place = where(finding, handed)
    yield f'<div class="finding {finding.level.word}">'
    yield f"<h3>{escaped(word(finding))}{f' ({escaped(place)})' if place else ''}</h3>"
    labelled = []
    for label, text in parts(finding):
        if label:
            labelled.append((label, text))
        else:
            yield f"<p>{escaped(text)}</p>"
    if excuse := standing(one, finding):
        yield f"<p>{escaped(sentence(excuse))}</p>"
    if labelled:
        yield "<dl>"
        for label, text in labelled:
            shown = f"<code>{escaped(text)}</code>" if label == "Write" else escaped(text)
            yield f"<dt>{label}</dt><dd>{shown}</dd>"
        yield "</dl>"
    yield "</div>"
