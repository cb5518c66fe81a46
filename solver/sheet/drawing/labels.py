"""What is written at a plug, broken into lines, and how much room it takes beside the card."""

from collections.abc import Sequence
from dataclasses import dataclass

from solver.sheet.drawing.letters import apart, lines_of, shortened, shown, width_of
from solver.sheet.drawing.told import Net, Plug
from solver.sheet.words import spans

LABEL, NOTE = 15.0, 13.0
"""Sizes of letters, in units of the drawing: labels of sockets and parts; what is said in passing."""
LINE = 18.0
"""From one line of a label to the next."""
ROOM, SOCKET_ROOM = 150.0, 180.0
"""How wide a label beside a card may be, and the label of a socket on it."""
MOST_LINES = 4

SOCKET, TAG, DISC, APART = 6.0, 18.0, 10.0, 4.0
"""Half a socket's sign, the height of a side's tag, the radius of a number's disc, and the space between them."""


@dataclass(frozen=True)
class Written:
    """What is written at a plug; lengths are in units of the drawing.

    Attributes:
        socket: The label of the socket as it stands on the card.
        lines: What the cable carries, where that is told at this plug.
        kind: The kind of the cable, where that is told at this plug.
        disc: How far from the edge of the card the number of the cable stands.
        reach: How far all of it reaches from the edge of the card.
    """

    socket: str
    lines: tuple[str, ...]
    kind: tuple[str, ...]
    disc: float
    reach: float

    @property
    def above(self) -> float:
        """How much of the row lies above the wire."""
        return DISC + APART + LINE * len(self.lines)

    @property
    def below(self) -> float:
        """How much of the row lies below the wire."""
        return DISC + APART + LINE * len(self.kind)


def written(nets: Sequence[Net]) -> dict[Plug, Written]:
    """What is written at every plug."""
    return {plug: _written(plug, net) for net in nets for plug in net.plugs}


def _written(plug: Plug, net: Net) -> Written:
    lines, kind = (_carried(net), _kind(net)) if plug.named else ((), ())
    tag = mark_width(plug.mark)
    disc = SOCKET + APART + (tag + APART if tag else 0) + DISC
    needed = [disc + DISC, *(SOCKET + APART + width_of(line, LABEL) for line in lines)]
    needed += [SOCKET + APART + width_of(line, NOTE) for line in kind]
    socket = apart(shortened(shown(plug.spot.name), SOCKET_ROOM, LABEL))
    return Written(socket, lines, kind, disc, max(needed) + APART)


def _carried(net: Net) -> tuple[str, ...]:
    """What a cable carries, in at most ``MOST_LINES`` lines that fit into ``ROOM``."""
    if not net.channels:
        return tuple(lines_of([*map(shown, net.parts)], ROOM, LABEL, MOST_LINES - 1)) + ("clock",) * net.clock
    most = MOST_LINES - net.clock
    if len(net.channels) <= most:
        lines = [
            line for channel, parts in net.channels for line in _channel(channel, parts, most // len(net.channels))
        ]
    else:
        lead = f"ch {', '.join(spans(channel for channel, _ in net.channels))}:"
        if width_of(lead, LABEL) > ROOM:
            lead = f"{len(net.channels)} channels:"
        lines = [lead, *lines_of([*map(shown, net.parts)], ROOM, LABEL, most - 1)]
    return (*lines, *["clock"] * net.clock)


def _channel(channel: int, parts: Sequence[str], most: int) -> list[str]:
    lead = f"ch {channel}: "
    first, *rest = lines_of([*map(shown, parts)], ROOM - width_of(lead, LABEL), LABEL, most)
    return [lead + first, *rest]


def _kind(net: Net) -> tuple[str, ...]:
    """The kind of a cable, on two lines where its two ends make it long."""
    one, arrow, other = net.kind.partition(" > ")
    if arrow and width_of(net.kind, NOTE) > ROOM:
        return (f"{one} >", other)
    return (net.kind,)


def mark_width(mark: str) -> float:
    """How wide the tag with the side of a plug is; 0 where it has none."""
    return max(TAG, width_of(mark, NOTE, bold=True) + 6) if mark else 0.0
