"""Reads a formula's bytes from disk, never more than a formula may have, and never from anything but a plain file."""

import stat
from pathlib import Path

from brimline.findings import Finding
from brimline.text import MOST_BYTES, too_large, whole

_RULE = "writing/file"
_WHY = "What cannot be read cannot be checked."


def load(path: Path, name: str = "") -> bytes | Finding:
    """The bytes of a file, or one finding that says why it is not read.

    `name` is how the file is called in the finding, the path itself if empty. Links are refused, so that a formula
    cannot show what lies outside its collection; so are folders, pipes and devices. A file over 256 KiB is refused by
    its size, without reading it.
    """
    name = name or path.as_posix()
    try:
        kind = path.lstat()
        if stat.S_ISLNK(kind.st_mode):
            broken = not path.exists()
            says = f"{name} is a link{' to nothing' if broken else ''}; links are not followed."
            return whole(name, _RULE, says, _WHY, "Put the file itself there, or name the file it points to.")
        if stat.S_ISDIR(kind.st_mode):
            return whole(name, _RULE, f"{name} is a folder.", _WHY, "Name a formula's file.")
        if not stat.S_ISREG(kind.st_mode):
            return whole(name, _RULE, f"{name} is not a plain file.", _WHY, "Name a formula's file.")
        if kind.st_size > MOST_BYTES:
            return too_large(name, kind.st_size)
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except FileNotFoundError:
        return whole(name, _RULE, f"There is no file {name}.", _WHY, "Check the name.")
    except (OSError, ValueError) as failed:
        reason = getattr(failed, "strerror", None) or "its name cannot be used"
        says = f"{name} cannot be read: {reason}."
        return whole(name, _RULE, says, _WHY, "Check that the file may be read.")
    return too_large(name, len(data)) if len(data) > MOST_BYTES else data
