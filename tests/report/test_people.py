"""The report for people: what it says, in which order, in how much room."""

import pytest
from report_making import make_finding, make_variance

from brimline.findings import Level, Place, Source, Span
from brimline.report.look import Look, cells
from brimline.report.people import people
from brimline.report.words import NOTICE, WHAT_IT_DOES
from brimline.review.values import Review


def in_order(text: str, *parts: str) -> bool:
    """Whether the parts follow each other, whatever the line breaks between them."""
    flat, place = " ".join(text.split()), 0
    for part in parts:
        found = flat.find(" ".join(part.split()), place)
        if found < 0:
            return False
        place = found + len(part)
    return True


def test_a_finding_reads_level_rule_place_arithmetic_why_way_out_source(finding, reviewed) -> None:
    text = people(Review((reviewed(finding()),)), Look())
    one = finding()
    assert in_order(
        text,
        "KV-214",
        "Fig jam, no lemon",
        "adapted/kv-214.formula",
        "departs from KV-114, read at 1.00 of its batch",
        "unsafe",
        "acid/dropped",
        "take, line 7",
        one.says,
        one.why,
        "Instead: Keep the tested amount",
        "Source: A published guide, section 2, page 5.",
        "1 formula reviewed, 1 held back: 1 unsafe.",
        WHAT_IT_DOES,
        NOTICE,
    )
    assert text.splitlines()[0].endswith("adapted/kv-214.formula")
    assert len(text.splitlines()[0]) == 80


@pytest.mark.parametrize("width", [40, 60, 80, 100])
def test_no_line_is_wider_than_the_screen(finding, reviewed, width: int) -> None:
    long = finding(rule="practice/" + "x" * 15, section="evidence", before=Place("tested/" + "y" * 90, Span(0, 1)))
    review = Review((reviewed(long, title="Quince " * 20, path="d/" + "p" * 120),), collections=("C " * 60,))
    # A command to be typed stays whole, however long the path in it.
    lines = [line for line in people(review, Look(width=width)).splitlines() if "brimline compare" not in line]
    assert [line for line in lines if cells(line) > width] == []


@pytest.mark.parametrize(
    ("how", "words"),
    [
        ("read", "A guide, page 1."),
        ("memory", "A guide, page 1 (from memory)."),
        ("judgement", "A guide, page 1 (our judgement, on the cautious side)."),
    ],
)
def test_a_source_says_how_surely_it_is_known(finding, reviewed, how: str, words: str) -> None:
    text = people(Review((reviewed(finding(sources=(Source("g", "A guide", "page 1", how),))),)), Look())
    assert in_order(text, f"Source: {words}")


def test_our_own_judgement_is_never_dressed_up_as_a_source(finding, reviewed) -> None:
    own = Source("judgement", "judgement", "", "judgement")
    text = people(Review((reviewed(finding(sources=(own,))),)), Look())
    assert "Source: Our judgement, on the cautious side." in text


def test_a_publication_is_named_once_with_all_its_places(finding, reviewed) -> None:
    several = tuple(Source(place, "A guide", place, "read") for place in ("page 1", "page 2", "page 1"))
    text = people(Review((reviewed(finding(sources=several)),)), Look())
    assert "Source: A guide, page 1; page 2." in text
    assert text.count("A guide") == 1


def test_findings_that_differ_in_their_sentence_only_share_the_rest(finding, reviewed) -> None:
    several = [finding(says=f"{time} min tested.") for time in (5, 10, 15)]
    text = people(Review((reviewed(*several),)), Look())
    assert in_order(text, "acid/dropped", "- 5 min tested.", "- 10 min tested.", "- 15 min tested.", "Instead:")
    assert (text.count("Instead:"), text.count("Source:")) == (1, 1)
    assert "1 held back: 3 unsafe." in text


def test_what_cannot_be_told_for_certain_says_may_and_how_to_settle_it(finding, reviewed) -> None:
    text = people(Review((reviewed(finding(certain=False)),)), Look())
    assert in_order(text, "acid/dropped, may be", finding().says, "by weight", finding().why)
    assert "may be" not in people(Review((reviewed(finding()),)), Look())


def test_an_unreadable_line_is_shown_with_a_mark_and_the_line_to_write(finding, reviewed) -> None:
    written = {("kv.formula", 5): "\t fruit  5-1/2 cup gooseberries"}
    one = finding(
        at=Place("kv.formula", Span(9, 10)),
        level=Level.UNREADABLE,
        line=5,
        column=10,
        copy="  fruit  5 1/2 cup gooseberries",
    )
    look = Look(written=lambda path, line: written.get((path, line), ""))
    lines = people(Review((reviewed(one),)), look).splitlines()
    shown = next(n for n, line in enumerate(lines) if "5-1/2" in line)
    assert lines[shown + 1].strip() == "^"
    assert lines[shown][lines[shown + 1].index("^")] == "5"
    assert "Line 5:" in lines[shown]
    assert lines[shown + 2].strip().startswith("Write:")
    assert lines[shown + 2].endswith("  fruit  5 1/2 cup gooseberries")
    assert lines[shown].index("5-1/2") == lines[shown + 2].index("5 1/2")


def test_a_draft_is_shown_and_not_held_back(finding, reviewed) -> None:
    text = people(Review((reviewed(finding(), standing="draft", held_back=False),)), Look())
    assert in_order(text, "a draft: shown, not held back", "none held back", "1 draft shown, not held back: 1 unsafe")
    assert NOTICE.split()[0] not in text


def test_the_root_is_named_where_it_is_another_formula(finding, reviewed) -> None:
    text = people(Review((reviewed(finding(), root="KV-014"),)), Look())
    assert in_order(text, "departs from KV-114 (whose own tested formula is KV-014), read at 1.00")


def test_a_clean_run_says_what_it_did_and_nothing_that_sounds_like_a_blessing(reviewed) -> None:
    text = people(Review((reviewed(), reviewed(path="b.formula"))), Look())
    assert in_order(text, "2 formulas reviewed, none held back.", WHAT_IT_DOES)
    assert "KV-214" not in text
    assert "safe" not in text.replace("untested formula safe", "").replace("\nsafe.", "")


def test_held_back_formulas_come_first_and_the_gravest_before_them_all(finding, reviewed) -> None:
    light = reviewed(finding(level=Level.FORM), path="a.formula", code="KV-1")
    grave = reviewed(finding(), path="z.formula", code="KV-3")
    middle = reviewed(finding(level=Level.UNTESTED), path="m.formula", code="KV-2")
    text = people(Review((light, middle, grave)), Look())
    assert in_order(text, "KV-3 Fig", "KV-2 Fig", "KV-1 Fig", "2 held back: 1 unsafe, 1 untested.", "1 form.")
    summary = text[text.index("3 formulas reviewed") :]
    assert in_order(summary, "KV-3", "z.formula", "KV-2", "m.formula", "Next:")
    assert "KV-1" not in summary


def test_the_summary_says_what_to_type_next(finding, reviewed) -> None:
    text = people(Review((reviewed(finding()),)), Look(prefix="my formulas/"))
    assert 'brimline compare "my formulas/adapted/kv-214.formula"' in text
    assert "brimline why acid/dropped" in text


@pytest.mark.parametrize(
    "path", ["$(reboot).formula", "`id`.formula", 'a"b.formula', "a%PATH%.formula", "a\nb.formula"]
)
def test_a_path_that_a_shell_would_act_on_is_never_offered_for_typing(finding, reviewed, path: str) -> None:
    text = people(Review((reviewed(finding(), path=path),)), Look())
    assert "brimline compare" not in text


def test_many_held_back_formulas_are_counted_not_all_listed(finding, reviewed) -> None:
    several = tuple(reviewed(finding(), path=f"{n:03}.formula", code=f"KV-{n}") for n in range(30))
    summary = people(Review(several), Look()).partition("30 formulas reviewed")[2]
    assert "and 10 more" in summary


def test_notices_of_collections_are_always_printed(reviewed) -> None:
    text = people(Review((reviewed(),), collections=("Valley",), notices=("Demonstration. Not tested.",)), Look())
    assert in_order(text, "1 formula of Valley reviewed", "Demonstration. Not tested.")


def test_colour_adds_nothing_but_colour(finding, reviewed) -> None:
    import re

    review = Review((reviewed(finding(), finding(level=Level.UNTESTED)),))
    plain, coloured = people(review, Look()), people(review, Look(colour=True))
    assert "\x1b[" not in plain
    assert re.sub("\x1b\\[[0-9;]*m", "", coloured) == plain
    assert coloured != plain


def test_what_is_let_stand_is_shown_with_its_reason_and_counted(finding, reviewed) -> None:
    varied = finding(varied=make_variance(), rule="jar/larger")
    printed = " ".join(people(Review((reviewed(finding(), varied),)), Look()).split())
    assert "It stands until 2027-03-31 by a variance of the collection curator" in printed
    assert "1 held back: 1 unsafe. 1 finding let stand by a variance." in printed
    assert "brimline why acid/dropped" in printed
    alone = " ".join(people(Review((reviewed(varied),)), Look()).split())
    assert "none held back. 1 finding let stand by a variance." in alone


def test_the_files_a_collection_keeps_are_shown_by_their_path(finding, reviewed) -> None:
    record = reviewed(finding(level=Level.FORM), path="variances.yaml", code="", title="", standing="", held_back=False)
    printed = people(Review((reviewed(),), records=(record,)), Look())
    assert "variances.yaml" in printed
    assert "(no code)" not in printed
    assert make_finding().says[:40] in printed
