"""The terminal, pipe or file a person reads from: its width, its colours, and how it fails."""

import errno
import os
import sys
import time
from typing import TextIO

from msgspec import Struct, field

from brimline.report.look import Look, fitted
from brimline.report.sink import visible

# A run shorter than this shows no progress: the bar would only flicker.
_PATIENCE_S = 1.0
_BAR = 30


class Console(Struct):
    """Where results go (`out`), where remarks go (`err`), and whether anyone still listens."""

    out: TextIO
    err: TextIO
    deaf: bool = False
    _bar: bool = False
    _began: float = field(default_factory=time.monotonic)
    _last: float = 0.0

    def say(self, text: str) -> None:
        """Print a result. A reader who has gone away (`| head`) is no fault, and nothing more is printed."""
        self.clear()
        if not self.deaf:
            try:
                self.out.write(text)
                self.out.flush()
            except OSError as error:
                # Windows reports a closed pipe as an invalid argument.
                if error.errno not in {errno.EPIPE, errno.EINVAL}:
                    raise
                self.deaf = True
                _silence(self.out)

    def hand_over(self, text: str) -> None:
        """Print a report for a program: the same bytes on every system, whatever the encoding and line ends here."""
        raw = getattr(self.out, "buffer", None)
        if raw is None:
            self.say(text)
            return
        self.clear()
        try:
            self.out.flush()
            raw.write(text.encode("utf-8"))
            raw.flush()
        except OSError as error:
            if error.errno not in {errno.EPIPE, errno.EINVAL}:
                raise
            self.deaf = True
            _silence(self.out)

    def note(self, text: str) -> None:
        """Print a remark beside the results; whether it arrives changes nothing."""
        self.clear()
        shown = "\n".join(visible(line) for line in text.rstrip("\n").split("\n"))
        _write(self.err, f"{shown}\n")

    def look(self, colour: str = "auto") -> Look:
        """How a report has to look here; `colour` is `auto`, `always` or `never`."""
        return Look(fitted(_columns(self.out)), self._coloured(colour))

    def progress(self, done: int, total: int) -> None:
        """Show how far a long run has come, on a terminal only."""
        now = time.monotonic()
        if now - self._began < _PATIENCE_S or now - self._last < 0.1 or not _terminal(self.err) or not total:
            return
        self._last, self._bar = now, True
        full = _BAR * done // total
        _write(self.err, f"\r[{'=' * full}{' ' * (_BAR - full)}] {done:,} of {total:,}")

    def clear(self) -> None:
        """Take the progress bar off the screen."""
        if self._bar:
            self._bar = False
            _write(self.err, "\r" + " " * (_BAR + 30) + "\r")

    def _coloured(self, colour: str) -> bool:
        if colour != "auto":
            return colour == "always"
        plain = os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb"
        return not plain and _terminal(self.out) and _understands_colour()


def opened() -> Console:
    """The console of this process. Letters its encoding lacks are written as escapes instead of stopping the run."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="backslashreplace")
    return Console(sys.stdout or _nowhere(), sys.stderr or _nowhere())


def _nowhere() -> TextIO:
    """Stands for a stream that a program started without a console does not have."""
    return open(os.devnull, "w", encoding="utf-8")  # noqa: PTH123 - stays open as the stream itself


def _columns(out: TextIO) -> int:
    """The width asked for with COLUMNS, or the terminal's, or 80; as shutil finds it, whose import costs too much."""
    asked = os.environ.get("COLUMNS", "")
    if asked.isascii() and asked.isdigit() and 0 < len(asked) < 6 and int(asked):
        return int(asked)
    try:
        return os.get_terminal_size(out.fileno()).columns or 80
    except (OSError, ValueError):
        return 80


def _terminal(stream: TextIO) -> bool:
    try:
        return stream.isatty()
    except (OSError, ValueError):
        return False


def _write(stream: TextIO, text: str) -> None:
    try:
        stream.write(text)
        stream.flush()
    except (OSError, ValueError):
        _silence(stream)


def _silence(stream: TextIO) -> None:
    """Send the rest of a stream nowhere, so that closing it at the end does not complain either."""
    try:
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, stream.fileno())
        os.close(nowhere)
    except (OSError, ValueError):
        return


def _understands_colour() -> bool:
    """Whether the terminal follows colour codes; on Windows they have to be switched on first."""
    if sys.platform == "win32":
        import ctypes

        kernel = ctypes.windll.kernel32
        handle, mode = kernel.GetStdHandle(-11), ctypes.c_ulong()
        # 4 is ENABLE_VIRTUAL_TERMINAL_PROCESSING of the Windows console functions.
        return bool(kernel.GetConsoleMode(handle, ctypes.byref(mode)) and kernel.SetConsoleMode(handle, mode.value | 4))
    return True
