"""What the planner says of a jam, in few words, and boxes that can do one thing each."""

import solver
from solver.gear.box import Box
from solver.jam.jam import Jam
from solver.outcome import Impossible, Planned
from solver.plans import Plan
from tests.building import box, named


def best(of: Jam) -> Plan | None:
    """The plan with the fewest cables, proved; None where it is proved that there is none."""
    outcome = solver.plan(of, time_limit=None)
    if isinstance(outcome, Planned):
        assert outcome.best.status == "proved"
        return outcome.best
    assert isinstance(outcome, Impossible)
    return None


def cables(of: Jam) -> int | None:
    """How many cables the best plan has; None where there is no plan."""
    plan = best(of)
    return None if plan is None else len(plan.cables)


def desk(strips: int, *offers: str) -> Box:
    """A leader with mono strips, one track and one MIDI out."""
    lines = range(1, strips + 1)
    return box(
        "Desk",
        out=[named("MAIN", left="OUT L", right="OUT R")],
        in_=[named(f"LINE {line}", mono=f"IN {line}") for line in lines],
        strip=[named(str(line), from_=f"LINE {line}", offers=list(offers)) for line in lines],
        track=[named("LANE")],
        midi=[named("MIDI OUT", way="out")],
    )


def module(engines: int, outs: int) -> Box:
    """A sound module whose engines go to any of its mono outlets."""
    outlets = [f"OUT {number}" for number in range(1, outs + 1)]
    return box(
        "Module",
        out=[named(outlet, mono=outlet) for outlet in outlets],
        engine=[named(str(number), to=outlets) for number in range(1, engines + 1)],
        midi=[named("MIDI IN", way="in")],
    )
