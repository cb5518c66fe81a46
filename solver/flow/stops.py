"""Where a part goes silent, and what stops it there."""

from dataclasses import dataclass
from typing import Literal

Cause = Literal[
    "not in the plan",
    "not sent",
    "not inside",
    "no port",
    "no cable",
    "wrong cable",
    "no way on",
    "other channel",
    "level at zero",
    "no plug",
    "no strip",
    "no outlet",
    "round",
]


@dataclass(frozen=True)
class Stop:
    """The last point at which a part is present.

    Attributes:
        cause: What stops it there.
        at: The point, ``"box/NAME"``; the part itself where the plan has none of it.
        about: What the cause is about: jacks, cables, channels or boxes.
    """

    cause: Cause
    at: str
    about: tuple[str, ...] = ()
