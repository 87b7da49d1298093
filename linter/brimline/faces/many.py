"""A long review shared among processes; the result is the same as in one."""

from collections.abc import Callable

from msgspec.structs import replace

from brimline.review.engine import review, whole
from brimline.review.values import Review
from brimline.shelf import Shelf

Progress = Callable[[int, int], None]

# A further process has to start Python and read the grammar before it helps; below this it only costs.
LEAST_SHARE = 50
# Shares are small so that progress shows and no process is left with all the long formulas.
_SHARE = 25

# The shelf each worker process was started with.
_shelf: list[Shelf] = []


def review_all(shelf: Shelf, jobs: int, progress: Progress | None = None) -> Review:
    """Review a shelf in up to so many processes at once."""
    total = len(shelf.formulas)
    workers = min(jobs, total // LEAST_SHARE)
    if workers < 2:
        return review(shelf, progress=progress)
    from concurrent.futures import ProcessPoolExecutor
    from multiprocessing import get_context

    shares = [(start, min(start + _SHARE, total)) for start in range(0, total, _SHARE)]
    parts: list[Review] = []
    # Started afresh, never forked: the same on every system.
    with ProcessPoolExecutor(workers, get_context("spawn"), _begin, (shelf,)) as pool:
        try:
            for (_, end), part in zip(shares, pool.map(_review_share, shares), strict=True):
                parts.append(part)
                if progress:
                    progress(end, total)
        except BaseException:
            pool.shutdown(wait=False, cancel_futures=True)
            raise
    review_of = whole(shelf, (one for part in parts for one in part.formulas))
    refusals = dict.fromkeys((*review_of.refusals, *(one for part in parts for one in part.refusals)))
    return replace(review_of, refusals=tuple(refusals))


def _begin(shelf: Shelf) -> None:
    # Ctrl-C is for the process that was started; it ends the others.
    import signal

    signal.signal(signal.SIGINT, signal.SIG_IGN)
    _shelf[:] = [shelf]


def _review_share(share: tuple[int, int]) -> Review:
    shelf = _shelf[0]
    return review(shelf.only(shelf.formulas[slice(*share)]))
