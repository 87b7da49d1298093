"""What a collection keeps beside its formulas, from bytes: settings, register, variances.

The contract: every reader is a pure function from the bytes of one file to values, and a Collection is made from a map of
file names to bytes. Where the bytes come from (a folder, the base revision of a change, a test) is nobody's business here.
A file that cannot be used becomes a refusal, never an empty value taken for the real one.
"""

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TypeVar

from brimline.findings import Variance
from brimline.shelf.register import read_register
from brimline.shelf.settings import read_settings
from brimline.shelf.strict import LARGEST, Refused
from brimline.shelf.values import Collection, Refusal, Settings
from brimline.shelf.variances import read_variances
from brimline.shelf.walk import SETTINGS, trouble_with

REGISTER = "register.json"
VARIANCES = "variances.yaml"
# Everything that decides how a collection is judged: a change to any of these is a change of policy.
RECORDS = (SETTINGS, REGISTER, VARIANCES)

_Value = TypeVar("_Value")
_DO = {
    SETTINGS: "Mend the settings; without them nobody knows what to hold back.",
    REGISTER: "Mend the register, or take it from the last good revision; without it no seal can be checked.",
    VARIANCES: "Mend the variances; until then none of them lets anything stand.",
}


def collection_of(
    folder: Path, files: Mapping[str, bytes], shown: str = "", troubles: Mapping[str, str] | None = None
) -> tuple[Collection, tuple[Refusal, ...]]:
    """A collection from its own files by name (see RECORDS), and what could not be used.

    `folder` is where its formulas are, `shown` what to put before the names (`formulas/`, or nothing). `troubles` says
    why a file that is there could not be had. A name that is not in `files` is a file that is not there.
    """
    refusals: list[Refusal] = []

    def used(name: str, read: Callable[[bytes], _Value], otherwise: _Value) -> _Value:
        reason = (troubles or {}).get(name, "")
        if not reason and name not in files:
            return otherwise
        try:
            if not reason:
                return read(files[name])
        except Refused as refused:
            reason = str(refused)
        refusals.append(Refusal(f"{shown}{name}", reason, _DO[name]))
        return otherwise

    settings = used(SETTINGS, read_settings, Settings())
    register = used(REGISTER, read_register, None)
    nothing: tuple[Variance, ...] = ()
    variances = used(VARIANCES, lambda data: read_variances(data, f"{shown}{VARIANCES}"), nothing)
    return Collection(folder, settings, register=register, variances=variances), tuple(refusals)


def files_in(folder: Path) -> tuple[dict[str, bytes], dict[str, str]]:
    """The bytes of a collection's own files in a folder, and why one that is there cannot be had. Links are not followed."""
    from brimline.shelf.books import because

    files: dict[str, bytes] = {}
    troubles: dict[str, str] = {}
    for name in RECORDS:
        trouble = trouble_with(folder / name)
        if trouble == "is no longer there":
            continue
        try:
            if not trouble:
                with (folder / name).open("rb") as stream:
                    files[name] = stream.read(LARGEST + 1)
        except OSError as error:
            trouble = because(error)
        if trouble:
            troubles[name] = trouble
    return files, troubles
