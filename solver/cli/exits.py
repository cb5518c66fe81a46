"""The exit statuses, in a file that loads next to nothing."""

from enum import IntEnum

from solver.codes import Code

STOPPED_EARLY = f"Stopped before there was an answer. [{Code.UNDECIDED}]"


class Exit(IntEnum):
    """The exit statuses."""

    WELL = 0
    FAILED = 1
    BAD_INPUT = 2
    UNDECIDED = 3
    OWN_MISTAKE = 70


MEANINGS = {
    Exit.WELL: "a plan, or all is well",
    Exit.FAILED: "proved impossible, or a check that failed",
    Exit.BAD_INPUT: "bad input or usage",
    Exit.UNDECIDED: "not decided in the time given",
    Exit.OWN_MISTAKE: "a mistake of hardpan's own",
}
"""What each status says."""
