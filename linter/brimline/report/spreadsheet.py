"""A review as a table in CSV (RFC 4180), one row a finding, for people who sort and count in a spreadsheet."""

from brimline.report.escaping import cell
from brimline.report.handed import Handed, ranked
from brimline.report.words import cited, sentence, standing
from brimline.review.fingerprint import fingerprint

_HEAD = (
    *("level", "certain", "rule", "code", "title", "held back", "file", "line"),
    *("what", "why", "instead", "source", "let stand", "fingerprint"),
)


def spreadsheet(handed: Handed) -> str:
    """All findings as rows, unsafe ones first; every cell quoted, none of them a formula of a spreadsheet."""
    rows = [_HEAD]
    for one, finding in ranked(handed.review):
        rows.append(
            (
                finding.level.word,
                "yes" if finding.certain else "may be",
                finding.rule,
                one.code,
                one.title,
                "yes" if one.held_back else "no",
                handed.path(finding.at.path),
                str(finding.line or ""),
                sentence(finding.says),
                sentence(finding.why),
                sentence(finding.instead),
                " ".join(sentence(source) for source in cited(finding.sources)),
                standing(one, finding),
                fingerprint(one.code, finding),
            )
        )
    return "".join(",".join(cell(text) for text in row) + "\r\n" for row in rows)
