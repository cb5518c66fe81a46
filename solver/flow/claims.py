"""Where a plan's own words about strips differ from the strips that the sound enters."""

from collections.abc import Iterator
from typing import Literal, NamedTuple

from solver.flow.followed import Followed
from solver.gear.words import Spot

Cause = Literal["sum", "copy", "cable"]


class Difference(NamedTuple):
    """One box in which the plan names other strips for a part than the part enters, and what brought it there."""

    part: str
    box: str
    named: tuple[str, ...]
    entered: tuple[str, ...]
    extra: tuple[Spot, ...]
    cause: Cause


def differences(followed: Followed) -> Iterator[Difference]:
    """Yield each difference under its cause: a summed left jack, a copied inlet, or the cables as such."""
    for part, planned in followed.parts.items():
        if planned.strips is not None:
            for box in followed.rig.boxes:
                named = planned.strips.get(box, ())
                entered = tuple(strip.name for strip in followed.strips_in(part, box))
                if named != entered:
                    yield from _by_cause(followed, part, box, named, entered)


def _by_cause(
    followed: Followed, part: str, box: str, named: tuple[str, ...], entered: tuple[str, ...]
) -> Iterator[Difference]:
    extra = tuple(Spot(box, name) for name in entered if name not in named)
    summed = tuple(strip for strip in extra if strip not in followed.sound_without_sums.entered[part])
    copied = tuple(
        strip for strip in extra if strip not in summed and strip not in followed.sound_without_copies.entered[part]
    )
    cabled = tuple(strip for strip in extra if strip not in (*summed, *copied))
    if summed:
        yield Difference(part, box, named, entered, summed, "sum")
    if copied:
        yield Difference(part, box, named, entered, copied, "copy")
    in_order = tuple(name for name in entered if name in named) == named
    if cabled or not in_order:
        yield Difference(part, box, named, entered, cabled, "cable")
