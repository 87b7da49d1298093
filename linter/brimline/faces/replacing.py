"""Puts new bytes in a file's place: written whole beside it first, then put there in one step, or nothing happens."""

import os
import stat
import tempfile
from pathlib import Path


class NotReplaced(Exception):
    """The file stands as it was; the message is a sentence that says why and what to do."""


def put_file(path: Path, before: bytes | None, after: bytes) -> None:
    """Put `after` where `before` stands now, or where nothing stands if that is None. Raises NotReplaced."""
    if before is not None:
        replace_file(path, before, after)
        return
    try:
        handle, name = tempfile.mkstemp(prefix=".", suffix=".new", dir=path.parent)
        beside = Path(name)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(after)
                file.flush()
                os.fsync(file.fileno())
            beside.chmod(0o666 & ~_mask())
            if os.path.lexists(path):
                raise NotReplaced("Another program put a file there meanwhile. Start again.")
            beside.replace(path)
        except BaseException:
            beside.unlink(missing_ok=True)
            raise
    except PermissionError as error:
        raise NotReplaced(_denied(error)) from error
    except OSError as error:
        raise NotReplaced(f"It could not be written: {error.strerror or type(error).__name__}.") from error


def _mask() -> int:
    """The permissions that new files of this process go without; asking means setting it for a moment."""
    mask = os.umask(0o077)
    os.umask(mask)
    return mask


def replace_file(path: Path, before: bytes, after: bytes) -> None:
    """Put `after` where `before` stands now; the file keeps its permissions. Raises NotReplaced.

    What another program wrote into the file since it was read, and a file that may not be written, stay as they are.
    A file that other names share (hard links) is written under this name only.
    """
    try:
        seen = path.stat(follow_symlinks=False)
        if not stat.S_ISREG(seen.st_mode):
            raise NotReplaced("It is no plain file any more.")
        if not seen.st_mode & stat.S_IWUSR or not os.access(path, os.W_OK):
            raise NotReplaced("It is write-protected. Allow writing to it, or work on a copy.")
        _replace(path, seen, before, after)
    except PermissionError as error:
        raise NotReplaced(_denied(error)) from error
    except FileNotFoundError as error:
        raise NotReplaced("It is no longer there.") from error
    except OSError as error:
        raise NotReplaced(f"It could not be written: {error.strerror or type(error).__name__}.") from error


def _replace(path: Path, seen: os.stat_result, before: bytes, after: bytes) -> None:
    # A name that starts with a point is passed over by every walk through a collection, should it ever be left behind.
    handle, name = tempfile.mkstemp(prefix=".", suffix=".neaten", dir=path.parent)
    beside = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(after)
            file.flush()
            os.fsync(file.fileno())
        beside.chmod(stat.S_IMODE(seen.st_mode))
        _keep_owner(beside, seen)
        if path.read_bytes() != before:
            raise NotReplaced("Another program changed it meanwhile. Start again.")
        beside.replace(path)
    except BaseException:
        beside.unlink(missing_ok=True)
        raise


def _keep_owner(beside: Path, seen: os.stat_result) -> None:
    """Give the new file to the old one's owner and group, where there are such and it is allowed."""
    made = beside.stat()
    chown = getattr(os, "chown", None)
    if chown is None or (made.st_uid, made.st_gid) == (seen.st_uid, seen.st_gid):
        return
    try:
        chown(beside, seen.st_uid, seen.st_gid)
        beside.chmod(stat.S_IMODE(seen.st_mode))
    except PermissionError:
        return


def _denied(error: PermissionError) -> str:
    # 5 and 32 are ERROR_ACCESS_DENIED and ERROR_SHARING_VIOLATION of the Windows system functions.
    if getattr(error, "winerror", None) in {5, 32}:
        return "Another program holds it open. Close the file there and start again."
    return "You may not write in its folder. Ask for access, or work on a copy."
