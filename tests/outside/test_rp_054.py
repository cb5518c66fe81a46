"""RP-054, MIDI over TRS plugs (MIDI Manufacturers Association and AMEI; the year 2018 is from memory)."""

from typing import Literal

from solver.gear.cables import MidiPlug, midi_kind
from tests.building import desk, dock_and_reef, module, named
from tests.outside.checks import check
from tests.outside.planning import best

PAPER = "RP-054, read in three secondary texts that agree"
Pins = dict[str, int]

A: Pins = {"tip": 5, "ring": 4, "sleeve": 2}
B: Pins = {"tip": 4, "ring": 5, "sleeve": 2}
PLUGS: dict[MidiPlug, Pins] = {"trs-a": A, "trs-b": B}
"""The pin of a DIN socket that each contact of a small plug stands for; B stands in no standard (two texts agree)."""


def _joins(one: Pins, other: Pins) -> bool:
    """Whether a plain cable, tip to tip and ring to ring, joins what belongs together."""
    return all(one[contact] == other[contact] for contact in one)


@check(
    "A plain small cable joins two sockets just where tip and ring stand for the same pins",
    source=f"{PAPER}: A has pin 5 on the tip and 4 on the ring; B, in no standard, has them swapped",
    kind="published",
    right={"A": A},
    wrong=B,
)
def test_plain_cables(of_a: Pins) -> None:
    plugs = PLUGS | {"trs-a": of_a}
    for one, pins in plugs.items():
        for other, others in plugs.items():
            assert (midi_kind(one, other) == "trs") == _joins(pins, others), (one, other)


Ends = tuple[MidiPlug, MidiPlug]


@check(
    "A plan plugs A to A and B to B, and never A to B",
    source=PAPER,
    kind="published",
    right={
        "A to A": (("trs-a", "trs-a"), "trs"),
        "B to B": (("trs-b", "trs-b"), "trs"),
        "A to B": (("trs-a", "trs-b"), None),
        "DIN to B": (("din", "trs-b"), "din > trs-b"),
        "A to DIN": (("trs-a", "din"), "din > trs-a"),
    },
    wrong=(("trs-a", "trs-b"), "trs"),
)
def test_plans(of: tuple[Ends, Literal["trs", "din > trs-a", "din > trs-b"] | None]) -> None:
    (one, other), kind = of
    dock = desk(midi=[named("MIDI OUT", way="out", plug=one)])
    reef = module(midi=[named("MIDI IN", way="in", plug=other)])
    plan = best(dock_and_reef(dock=dock, reef=reef, parts={"bass": {"on": "reef/1"}}))
    found = None if plan is None else plan.cables[-1]
    assert (found and found.kind) == kind
