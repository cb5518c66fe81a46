"""The timing of MIDI cables in the text of a plan."""

from typing import Any

import pytest

from solver.sheet.text import plan_text
from tests.sheet.low_tide import low_tide, plan_of, planned


def sheet(width: int = 100, **changes: Any) -> str:
    return plan_text(low_tide(), planned(plan_of(**changes)), width)


def timed(*cables: dict[str, Any]) -> dict[str, Any]:
    """The timing of a plan: one serial cable of Low Tide, as it comes, or with some values replaced."""
    plain = {
        "from": "tiller/MIDI OUT",
        "to": "barge/MIDI IN",
        "notes": 6,
        "bytes": 18,
        "late_ms": 4.8,
        "running_bytes": 15,
        "running_late_ms": 3.84,
    }
    return {"timing": [plain | cable for cable in cables]}


@pytest.mark.parametrize("cables", [(), ({},), ({"late_ms": 5.0, "thrus": 1},)])
def test_timing_that_tells_nothing_is_left_out(cables: tuple[dict[str, Any], ...]) -> None:
    assert "MIDI timing" not in sheet(**timed(*cables))


@pytest.mark.parametrize("telling", [{"late_ms": 5.76}, {"thrus": 2}])
def test_timing_halfway_to_a_caution_is_shown(telling: dict[str, Any]) -> None:
    said = sheet(80, **timed(telling | {"clock_percent": 1.51}, {"to": "elsewhere/IN"}))
    lines = said[said.index("MIDI timing") :].split("\n")
    assert lines[2].split() == ["cable", "notes", "bytes,", "late", "running", "clock", "thrus"]
    late, thrus = f"{telling.get('late_ms', 4.8):.1f}", str(telling.get("thrus", 0))
    number = next(n for n, c in enumerate(plan_of().cables, start=1) if c.to == "barge/MIDI IN")
    assert lines[4].split() == [
        f"{number},", "to", "barge/MIDI", "IN", "6", "18,", late, "ms", "15,", "3.8", "ms", "1.5", "%", thrus,
    ]  # fmt: skip
    assert lines[5].split() == ["to", "elsewhere/IN", "6", "18,", "4.8", "ms", "15,", "3.8", "ms", "-", "0"]
    assert lines.index("Cautions") > 5
