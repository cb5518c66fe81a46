"""How files write the channels that something can be set to."""

import re
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field

from solver.gear.words import Allowed, ChannelNumber

MOST_CHANNELS = 256
"""How many channels a text is read to name, each as often as it stands there."""


_NUMBER = re.compile(r"[0-9]{1,2}")
_WRITTEN = r"(0?[1-9]|1[0-6])"
_RANGE = rf"\s*{_WRITTEN}(-{_WRITTEN})?\s*"
ChannelText = Annotated[str, Field(pattern=f"^{_RANGE}(,{_RANGE})*$")]
"""How files write channels as a text; which of two numbers is the higher one is not seen here."""


def _channels(value: Any) -> Any:
    """Read ``"1-16"``, ``"1-8, 10"``, ``"all"`` or a list into a rising tuple of numbers or ``"all"``."""
    if isinstance(value, str) and value != "all":
        numbers: list[int] = []
        for piece in value.split(","):
            low, dash, high = piece.strip().partition("-")
            if not (_NUMBER.fullmatch(low) and (_NUMBER.fullmatch(high) or not dash)):
                return value
            if int(high or low) < int(low) or len(numbers) > MOST_CHANNELS:
                return value
            numbers.extend(range(int(low), int(high or low) + 1))
        value = numbers
    if isinstance(value, list | tuple) and all(type(number) is int for number in value):
        return tuple(sorted(set(value)))
    return value


Channels = Annotated[
    tuple[ChannelNumber, ...] | Literal["all"],
    BeforeValidator(_channels, json_schema_input_type=ChannelText | tuple[ChannelNumber, ...] | Literal["all"]),
    Allowed('"1-16" or another range, a list of channels from 1 to 16 ([]: none), or "all"'),
]
TrackChannels = Annotated[
    tuple[ChannelNumber, ...],
    BeforeValidator(_channels, json_schema_input_type=ChannelText | tuple[ChannelNumber, ...]),
    Allowed('"1-16" or another range, or a list of channels from 1 to 16 ([]: none)'),
]
Standing = Annotated[
    ChannelNumber | Literal["off", "all"], Allowed('a whole number from 1 to 16, or "off" where it can be off')
]
