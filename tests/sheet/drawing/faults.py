"""What is wrong with the geometry of a drawing: one function a promise, each with the places where it is broken."""

from collections import Counter
from collections.abc import Callable, Iterator
from itertools import combinations

from solver.plans import Ends, Plan
from solver.sheet.drawing.letters import shown
from tests.sheet.drawing.seen import Label, Point, Seen, Segment

Faults = Iterator[str]
HALF = 2.0
"""Half the thickness of the thickest line, rounded up."""
APART = 8.0
"""How far apart the middles of two lines are at least that run side by side."""
NEAR = 0.2
"""Lengths in a file are rounded to a tenth."""


def not_each_cable_once(found: Seen, plan: Plan) -> Faults:
    """Every cable of the plan is drawn once, with its kind and its number in plugging order."""
    wanted = [(str(n), f"{_ends(c.source)} > {_ends(c.to)}", c.kind) for n, c in enumerate(plan.cables, start=1)]
    if found.cables != [(number, shown(ends), kind) for number, ends, kind in wanted]:
        yield f"drawn: {found.cables}"


def _ends(ends: Ends) -> str:
    return ends if isinstance(ends, str) else " + ".join(ends)


def not_on_its_jacks(found: Seen, plan: Plan) -> Faults:
    """Each cable is in one piece, and its loose ends lie on its sockets: on the edge of the box, beside the label."""
    for number, cable in enumerate(plan.cables, start=1):
        wires = found.wires.get(str(number), [])
        plugs = [plug for plug in found.plugs if plug.number == str(number)]
        ends = [e for spots in (cable.source, cable.to) for e in ((spots,) if isinstance(spots, str) else spots)]
        if Counter(plug.spot for plug in plugs) != Counter(map(shown, ends)):
            yield f"{number}: plugs {plugs}"
        loose = [p for wire in wires for p in wire if sum(_touches(p, other) for other in wires) == 1]
        if sorted(loose) != sorted(plug.at for plug in plugs):
            yield f"{number}: ends at {loose}, sockets at {plugs}"
        if not _in_one_piece(wires):
            yield f"{number}: in pieces"
        for plug in plugs:
            card = found.boxes[plug.spot.partition("/")[0]]
            beside = any(spot == plug.spot and abs(y - plug.at[1]) < 3 for spot, y in found.jacks)
            on_edge = min(abs(plug.at[0] - card.left), abs(plug.at[0] - card.right)) < NEAR
            if not (on_edge and beside and card.top < plug.at[1] < card.bottom):
                yield f"{number}: {plug} is not at its jack"


def _touches(point: Point, wire: Segment) -> bool:
    rect = wire.rect()
    return rect.left <= point[0] <= rect.right and rect.top <= point[1] <= rect.bottom


def _in_one_piece(wires: list[Segment]) -> bool:
    reached, rest = wires[:1], wires[1:]
    for wire in reached:
        joined = [
            other for other in rest if any(_touches(p, wire) for p in other) or any(_touches(p, other) for p in wire)
        ]
        reached += joined
        rest = [other for other in rest if other not in joined]
    return not rest


def line_through_a_box(found: Seen, _: Plan) -> Faults:
    """No cable passes through a box; it may touch the edge at its jack."""
    for number, wires in found.wires.items():
        for wire in wires:
            for box, card in found.boxes.items():
                if wire.rect(HALF).overlaps(card, NEAR):
                    yield f"{number} through {box}: {wire}"


def cable_on_a_cable(found: Seen, _: Plan) -> Faults:
    """No two cables run on each other, or so near that they look like one."""
    for (one, wires), (other, others) in combinations(found.wires.items(), 2):
        for wire in wires:
            for near in others:
                if wire.level is near.level and _side_by_side(wire, near):
                    yield f"{one} and {other}: {wire}, {near}"


def _side_by_side(wire: Segment, near: Segment) -> bool:
    one, other = wire.rect(), near.rect()
    if wire.level:
        return abs(one.top - other.top) < APART and min(one.right, other.right) - max(one.left, other.left) > NEAR
    return abs(one.left - other.left) < APART and min(one.bottom, other.bottom) - max(one.top, other.top) > NEAR


def label_on_a_label(found: Seen, _: Plan) -> Faults:
    """No text or sign lies on another."""
    for one, other in combinations(found.labels, 2):
        if one.rect.overlaps(other.rect, NEAR):
            yield f"{one} on {other}"


def label_on_a_foreign_box(found: Seen, _: Plan) -> Faults:
    """The texts of a box are inside it, and no others are."""
    for label in found.labels:
        if label.box is not None and not found.boxes[label.box].holds(label.rect):
            yield f"{label} leaves its box"
        for box, card in found.boxes.items():
            if box != label.box and card.overlaps(label.rect, NEAR):
                yield f"{label} on {box}"


def line_through_a_label(found: Seen, _: Plan) -> Faults:
    """No cable passes through a text; the signs at a plug stand on their own cable."""
    for label in found.labels:
        for number, wires in found.wires.items():
            if any(wire.rect(HALF).overlaps(label.rect, NEAR) for wire in wires) and not _its_sign(
                label, number, found
            ):
                yield f"{number} through {label}"


def _its_sign(label: Label, number: str, found: Seen) -> bool:
    middle = (label.rect.top + label.rect.bottom) / 2
    plugs = [p for p in found.plugs if abs(p.at[1] - middle) < NEAR and p.number == number]
    return label.words == "sign" and bool(plugs)


def box_on_a_box(found: Seen, _: Plan) -> Faults:
    """No box lies on another."""
    for (one, card), (other, near) in combinations(found.boxes.items(), 2):
        if card.overlaps(near):
            yield f"{one} on {other}"


def off_the_page(found: Seen, _: Plan) -> Faults:
    """Everything is on the page."""
    rects = [label.rect for label in found.labels] + [*found.boxes.values()]
    rects += [wire.rect(HALF) for wires in found.wires.values() for wire in wires]
    yield from (f"{rect}" for rect in rects if not found.page.holds(rect))


PROMISES: tuple[Callable[[Seen, Plan], Faults], ...] = (
    not_each_cable_once,
    not_on_its_jacks,
    line_through_a_box,
    cable_on_a_cable,
    label_on_a_label,
    label_on_a_foreign_box,
    line_through_a_label,
    box_on_a_box,
    off_the_page,
)
