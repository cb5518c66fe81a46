"""Levels of any wiring, also one that goes round: a part is where the follower says it is, and nowhere else."""

import math
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from solver.flow.followed import Followed
from solver.flow.gains import Gains
from solver.flow.sound_way import AtOutlet, AtStrip
from solver.flow.trace import trace
from solver.flow.wires import Place
from solver.gear.box import Box
from tests.building import BASS, NOTES, box, cable, desk, jam, module, named, plan

MIXERS = ("one", "two", "three")
SENDS = ("reef/L/MONO", "reef/R", *(f"{name}/{jack}" for name in MIXERS for jack in ("L", "R", "M", "PL", "PR")))
TAKES = ("dock/IN 1", "dock/IN 2", *(f"{name}/{jack}" for name in MIXERS for jack in ("A", "B", "C")))
PANS = st.sampled_from(("left", "centre", "right"))


def mixer() -> Box:
    """Two strips of one side each, a stereo strip, outlets that sum and mirror, an inlet that copies."""
    return box(
        "Mixer",
        out=[
            named("MAIN", left="L", right="R", alone="sum"),
            named("MONO", mono="M", mirrors="MAIN"),
            named("COPY", left="PL", right="PR", mirrors="MAIN"),
        ],
        in_=[named("LINE", left="A", right="B", alone="copy"), named("C", mono="C")],
        strip=[
            named("A", from_="LINE/left"),
            named("B", from_="LINE/right"),
            named("W", from_="LINE"),
            named("C", from_="C"),
        ],
    )


@st.composite
def wirings(draw: st.DrawFn) -> dict[str, Any]:
    """Cables as they may come, each jack in use once, and pans of strips."""
    sends = draw(st.lists(st.sampled_from(SENDS), unique=True, max_size=len(TAKES)))
    takes = draw(st.permutations(TAKES))
    strips = {f"{name}/{strip}": {"outlet": "MAIN", "pan": draw(PANS)} for name in MIXERS for strip in ("A", "B")}
    cables = [cable("6.35 mono", *ends) for ends in zip(sends, takes, strict=False)]
    return {"cables": [*cables, NOTES], "strips": strips}


@settings(max_examples=150, deadline=None)
@given(wirings(), PANS, st.booleans())
def test_a_part_has_a_level_where_it_is_present(wiring: dict[str, Any], pan: str, stereo: bool) -> None:
    boxes = {"dock": desk(), "reef": module()} | {name: mixer() for name in MIXERS}
    table = jam(boxes, ["bass"], *([{"stereo": ["bass"]}] if stereo else []))
    followed = Followed(table, plan({"bass": BASS | {"pan": pan}}, **wiring))
    gains = Gains(followed).of("bass")
    for spot, outlet in followed.rig.outlets.items():
        for side in outlet.sides:
            voices = gains.get(Place(spot, side, True), {})
            assert set(voices) == set(followed.sound.voices_on(spot, side, "bass"))
            assert all(gain > 0 for gain in voices.values())
    found = trace(table, followed.plan, "bass")
    assert found.sound is not None
    assert set(found.sound.strips) == set(followed.sound.entered["bass"])
    assert bool(found.sound.heard) == any(
        followed.sound.voices_on(table.ears, side, "bass") for side in ("left", "right")
    )
    assert found.heard or found.sound.stops
    points = [*found.sound.points, *found.sound.aside]
    assert all(math.isfinite(level.db) for p in points if isinstance(p, AtOutlet | AtStrip) for level in p.levels)
