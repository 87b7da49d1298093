"""Starts the command line as a process of its own."""

import gc


def start() -> int:
    """Run the command line of this process and return its exit status.

    What a review makes refers to nothing that refers back, so looking for such rings frees nothing and takes a tenth of
    a short run's time; a long one looks now and then, for what the libraries leave. What is left at the end goes with
    the process. Only a process of brimline's own does this: whoever calls `main` keeps their own collector.
    """
    gc.set_threshold(200_000, 20, 100)
    from brimline.faces.cli import main

    status = main()
    gc.freeze()
    return status
