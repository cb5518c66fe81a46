"""How far apart players notice two sounds: a study of latency and jitter at digital instruments."""

from solver.flow.cautions import cautions
from solver.flow.followed import Followed
from tests.building import dock_and_reef
from tests.outside.checks import check
from tests.outside.planning import best


@check(
    "A spread that players rate no worse than none, up to 10 ms, passes without a caution; a wider one does not",
    source="Jack, Mehrabi, Stockman and McPherson, Music Perception 2018 (abstract; year from memory)",
    kind="published",
    right={"11 notes, 9.6 ms": (11, False), "12 notes, 10.56 ms": (12, True)},
    wrong=(12, False),
)
def test_a_caution_past_ten_milliseconds(of: tuple[int, bool]) -> None:
    notes, warned = of
    table = dock_and_reef(parts={"bass": {"on": "reef/1", "notes": notes}})
    plan = best(table)
    assert plan is not None
    assert any(" ms late" in line for line in cautions(Followed(table, plan))) == warned
