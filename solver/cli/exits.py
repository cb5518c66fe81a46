"""The exit statuses, in a file that loads nothing else."""

from enum import IntEnum

STOPPED_EARLY = "Stopped before there was an answer."


class Exit(IntEnum):
    """The exit statuses."""

    WELL = 0
    FAILED = 1
    BAD_INPUT = 2
    UNDECIDED = 3
    OWN_MISTAKE = 70
