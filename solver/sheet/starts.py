"""Where levels start before the line check: common practice of the trade, no published source."""

from collections.abc import Iterator

from solver.jam.jam import Jam
from solver.plans import Plan
from solver.sheet.step import Label, Name, Step, names


def level_steps(jam: Jam, plan: Plan) -> Iterator[Step]:
    """A step for each strip that carries a part, and one for engines that are heard where they stand."""
    for spot in plan.strips:
        box, _, name = spot.partition("/")
        parts = [part for part, planned in plan.parts.items() if name in (planned.strips or {}).get(box, ())]
        yield Step((Name(box), " strip ", Label(name), ": gain low, fader at its mark"), names(parts))
