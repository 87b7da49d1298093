"""`brimline seal`: enters tested formulas in their collection's register, or says what is not sealed or broken."""

from typing import TYPE_CHECKING

from brimline.faces.declare import Arguments, Command, Given, Misuse, Option

if TYPE_CHECKING:
    from brimline.document.meaning import Seal
    from brimline.faces.console import Console
    from brimline.review.sealing import Sealing
    from brimline.shelf import Collection, Shelf

ONLY_SAY = Option("--only-say", "", "change no file; say what is not sealed, and what is no longer what was sealed")
ANEW = Option("--anew", "REASON", "seal formulas that have changed since, and record this reason")
_SAYS = {
    "new": "sealed for the first time",
    "more": "sealed with its new evidence",
    "changed": "sealed anew",
}
_MISSING = {"new": "not sealed", "more": "sealed without its new evidence", "changed": "BROKEN"}


def run(arguments: Arguments, console: "Console") -> int:
    """Seal what was asked for. Raises Misuse for a pipe, which has no register, and for an empty reason."""
    from datetime import date

    from brimline.review.sealing import sealing
    from brimline.shelf import STDIN, load_shelf

    if STDIN in arguments.given:
        raise Misuse("a formula from a pipe cannot be sealed; name its file")
    anew = " ".join(arguments["anew"].split())
    if arguments["anew"] and len(anew) < 10:
        raise Misuse(f"{ANEW.name} needs a reason that somebody can follow in some years")
    today = date.today()  # noqa: DTZ011 - the reader's own day is meant
    shelf = load_shelf(arguments.given, today)
    if shelf.refusals:
        for one in shelf.refusals:
            console.note(" ".join(filter(None, [f"Not sealed: {one.path} {one.reason}.", one.do])))
        return 2
    found = []
    for number, book in enumerate(shelf.formulas, 1):
        found.append((book.collection, sealing(shelf, book, today, anew)))
        console.progress(number, len(shelf.formulas))
    only_say = bool(arguments["only_say"])
    failed = False if only_say else not _written(shelf, found, console)
    return _said([one for _, one in found], only_say, failed, len(arguments.given), console)


def _written(shelf: "Shelf", found: "list[tuple[int, Sealing]]", console: "Console") -> bool:
    """Write the register of every collection that gets a seal; whether all could be written."""
    from brimline.faces.replacing import NotReplaced, put_file
    from brimline.shelf import REGISTER
    from brimline.shelf.register import write_register
    from brimline.shelf.walk import trouble_with

    good = True
    for number, collection in enumerate(shelf.collections):
        new = {one.code: one.seal for at, one in found if at == number and one.seal is not None}
        if not new:
            continue
        file = collection.folder / REGISTER
        try:
            before = None if trouble_with(file) else file.read_bytes()
            seals = {**_kept(collection, before), **new}.values()
            after = write_register(seals, collection.settings.notice)
            put_file(file, before, after)
        except (NotReplaced, OSError) as why:
            console.note(f"Nothing sealed in {shelf.record_path(number, REGISTER)}. {why}")
            good = False
    return good


def _kept(collection: "Collection", before: bytes | None) -> "dict[str, Seal]":
    """The seals that stay. Raises NotReplaced if the file is not what the formulas were compared with."""
    from brimline.faces.replacing import NotReplaced
    from brimline.shelf.register import read_register

    now = {} if before is None else read_register(before)
    if now != dict(collection.register or {}):
        raise NotReplaced("Another program changed it meanwhile. Start again.")
    return dict(now)


def _said(found: "list[Sealing]", only_say: bool, failed: bool, given: int, console: "Console") -> int:
    """Print one line for each formula that is not simply sealed, and what it comes to."""
    from brimline.report.sink import paint, plain

    rows = []
    for one in found:
        name = f"{one.code or one.path}"
        if one.state == "sealed" or (one.state == "skipped" and (len(found) > 1 or given > 1)):
            continue
        if one.state in ("refused", "skipped"):
            rows.append(plain(f"{name} cannot be sealed: {one.says}."))
        elif only_say or one.seal is None:
            rows.append(plain(f"{name} {_MISSING[one.state]}{f': {one.says}' if one.says else ''}."))
        elif not failed:
            rows.append(plain(f"{name} {_SAYS[one.state]}."))
    console.say(paint(rows))
    states = [one.state for one in found]
    sealed = states.count("sealed") + (0 if only_say or failed else sum(one.seal is not None for one in found))
    tested = len(states) - states.count("skipped")
    console.note(f"{tested:,} tested formula{'s' if tested != 1 else ''}, {sealed:,} sealed.")
    if any(one.state == "changed" and one.seal is None for one in found):
        console.note(f"A changed formula is sealed only on purpose: {ANEW.name} and the reason.")
    if failed or not found or (tested == 0 and given == 1 and len(found) == 1):
        return 2
    return 0 if sealed == tested else 1


COMMAND = Command(
    name="seal",
    does="enters tested formulas in the register, so that no change goes unseen",
    example="brimline seal formulas",
    run=run,
    given=Given("PATH", "a tested formula, a folder or a collection", most=None, files=True),
    options=(ONLY_SAY, ANEW),
    more=(
        "The register is register.json beside collection.yaml. It holds a fingerprint of\n"
        "what each tested formula means, with the evidence for it: layout, comments, notes\n"
        "and equal units change nothing, any amount, jar, time or step does.\n"
        "Ends with 0 if every tested formula is sealed, 1 if one is not, 2 if something\n"
        "could not be read or written."
    ),
)
