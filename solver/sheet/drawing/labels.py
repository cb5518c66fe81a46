"""What is written at a plug, broken into lines, and how much room it takes beside the card."""

from solver.sheet.drawing.letters import apart, lines_of, shortened, shown, width_of
from solver.sheet.drawing.told import Net, Plug

LABEL, NOTE = 15.0, 13.0
"""Sizes of letters, in units of the drawing: labels of sockets and parts; what is said in passing."""
LINE = 18.0
"""From one line of a label to the next."""
ROOM = 150.0
"""How wide a label beside a card may be."""
MOST_LINES = 4

SOCKET, TAG, DISC, APART = 6.0, 18.0, 10.0, 4.0
"""Half a socket's sign, the height of a side's tag, the radius of a number's disc, and the space between them."""


def carried_lines(net: Net) -> tuple[str, ...]:
    """What a cable carries, in at most ``MOST_LINES`` lines that fit into ``ROOM``."""
    groups, over = net.groups, 0
    if len(groups) > MOST_LINES:
        over = len(groups) - MOST_LINES + 1
        groups = groups[: MOST_LINES - 1]
    most = MOST_LINES // max(len(groups), 1)
    lines: list[str] = []
    for lead, names in groups:
        before = f"{lead} " if lead and names else lead
        told = lines_of([*map(shown, names)], ROOM - width_of(before, LABEL), LABEL, most) or [""]
        lines += [before + told[0], *told[1:]]
    return tuple([*lines, f"and {over} more"] if over else lines)


def kind_lines(net: Net) -> tuple[str, ...]:
    """The kind of a cable, on two lines where its two ends make it long."""
    one, arrow, other = net.kind.partition(" > ")
    if arrow and width_of(net.kind, NOTE) > ROOM:
        return (f"{one} >", other)
    return (net.kind,)


def mark_width(mark: str) -> float:
    """How wide the tag with the side of a plug is; 0 where it has none."""
    return max(TAG, width_of(mark, NOTE, bold=True) + 6) if mark else 0.0


def disc_middle(plug: Plug) -> float:
    """How far from the edge of the card the number of the cable stands."""
    tag = mark_width(plug.mark)
    return SOCKET + APART + (tag + APART if tag else 0) + DISC


def room_beside(plug: Plug, net: Net) -> float:
    """How far what is written at a plug reaches from the edge of its card."""
    needed = [disc_middle(plug) + DISC]
    if plug.named:
        needed += [SOCKET + APART + width_of(line, LABEL) for line in carried_lines(net)]
        needed += [SOCKET + APART + width_of(line, NOTE) for line in kind_lines(net)]
    return max(needed) + APART


def above_wire(plug: Plug, net: Net) -> float:
    """How much of a row lies above its wire."""
    return DISC + APART + (LINE * len(carried_lines(net)) if plug.named else 0)


def below_wire(plug: Plug, net: Net) -> float:
    """How much of a row lies below its wire."""
    return DISC + APART + (LINE * len(kind_lines(net)) if plug.named else 0)


def name_of(plug: Plug) -> str:
    """The label of a socket as it stands on the card."""
    return apart(shortened(shown(plug.spot.name), ROOM, LABEL))
