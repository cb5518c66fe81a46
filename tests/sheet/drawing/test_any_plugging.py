"""However boxes are plugged into each other, well or badly, nothing in the drawing lies on anything else."""

from collections.abc import Iterator
from typing import Any
from xml.etree import ElementTree as Xml

from hypothesis import given, settings
from hypothesis import strategies as st

from solver.gear.box import Box
from solver.sheet.drawing import drawing
from tests.building import box, cable, jam, lives, named, plan
from tests.sheet.drawing import faults
from tests.sheet.drawing.seen import seen

BOXES = tuple("abcdefgh")
SOUND, NOTES = "6.35 mono", "din"


def _hub(name: str) -> Box:
    """A box with room for four cables each way, of sound and of notes."""
    return box(
        name,
        out=[named("MAIN", left="OUT L", right="OUT R"), *(named(f"O{n}", mono=f"O{n}") for n in range(4))],
        in_=[named(f"I{n}", mono=f"I{n}") for n in range(4)],
        strip=[named(f"S{n}", from_=f"I{n}", to=[f"O{n}"]) for n in range(4)],
        engine=[named("E", to=["O0"])],
        track=[named("T")],
        midi=[
            *(named(f"OUT {n}", way="out", repeats=["IN 0"]) for n in range(4)),
            *(named(f"IN {n}", way="in") for n in range(4)),
        ],
    )


@st.composite
def pluggings(draw: st.DrawFn) -> tuple[int, str, str, list[dict[str, Any]]]:
    """How many boxes there are, which one leads, which one is heard, and the cables; each socket is taken once."""
    count = draw(st.integers(1, len(BOXES)))
    some = st.sampled_from(BOXES[:count])
    spots = st.tuples(some, st.integers(0, 3))
    sound = draw(st.lists(st.tuples(spots, spots), max_size=8, unique_by=(lambda c: c[0], lambda c: c[1])))
    notes = draw(st.lists(st.tuples(spots, spots), max_size=6, unique_by=(lambda c: c[0], lambda c: c[1])))
    return count, draw(some), draw(some), [*_plugged(SOUND, "O", "I", sound), *_plugged(NOTES, "OUT ", "IN ", notes)]


def _plugged(kind: str, out: str, into: str, ends: list[Any]) -> Iterator[dict[str, Any]]:
    for (one, place), (other, at) in ends:
        yield cable(kind, f"{one}/{out}{place}", f"{other}/{into}{at}")


@settings(max_examples=25, deadline=None)
@given(pluggings())
def test_every_promise_is_kept(plugging: tuple[int, str, str, list[dict[str, Any]]]) -> None:
    count, leader, ears, cables = plugging
    boxes = {name: _hub(name) for name in BOXES[:count]}
    parts = {f"part of {name}": lives(f"{name}/E", f"{leader}/T", 1, outlet="O0") for name in boxes}
    found = plan(parts, cables)
    drawn = drawing(jam(boxes, list(parts), leader=leader, listen=f"{ears}/MAIN"), found)
    for promise in faults.PROMISES:
        assert list(promise(seen(Xml.fromstring(drawn)), found)) == [], promise.__doc__
