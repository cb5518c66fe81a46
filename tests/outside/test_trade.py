"""Common practice of the trade, which no standard says: what boxes do with a lone plug, hard pans and idle engines."""

from typing import Any

from solver.flow.cautions import cautions
from solver.flow.followed import Followed
from solver.flow.timing import MOST_THRUS, TIGHT
from solver.jam.jam import Jam
from solver.sheet.text import sheet_text
from tests.building import desk, dock_and_reef, jam, module, named
from tests.outside.checks import check
from tests.outside.planning import best, cables
from tests.outside.planning import desk as one_lane

TRADE = "Common practice"


def _one_lead(alone: str) -> Jam:
    """Two parts of a module that both have to come over one lead: the drawer holds no other."""
    reef = module(out=[named("MAIN", left="L/MONO", right="R", alone=alone)])
    parts = {"bass": {"on": "reef/1"}, "arp": {"on": "reef/2"}}
    kept = [{"keep": {"part": "bass", "pan": "left"}}, {"keep": {"part": "arp", "pan": "right"}}]
    return dock_and_reef({"layer": ["bass", "arp"]}, *kept, reef=reef, parts=parts, cables={"6.35 mono": 1, "din": 1})


@check(
    "A lone plug in a left jack that says MONO carries both sides",
    source=TRADE,
    kind="common practice, no source",
    right={"sum": ("sum", True), "own": ("own", False)},
    wrong=("own", True),
)
def test_a_lone_plug_in_an_output(of: tuple[str, bool]) -> None:
    alone, both = of
    assert (best(_one_lead(alone)) is not None) == both


@check(
    "A lone plug in a left inlet may feed both sides",
    source=TRADE,
    kind="common practice, no source",
    right={"copy": ("copy", 2), "own": ("own", None)},
    wrong=("own", 2),
)
def test_a_lone_plug_in_an_inlet(of: tuple[str, int | None]) -> None:
    """A mono part has to arrive on both sides of the ears, and the stereo strip keeps left left and right right."""
    alone, needed = of
    dock = desk(in_=[named("LINE", left="IN 1", right="IN 2", alone=alone)], strip=[named("S", from_="LINE")])
    reef = module(out=[named("OUT", mono="OUT")], engine=[named("1")])
    assert cables(dock_and_reef(dock=dock, reef=reef, parts={"bass": {"on": "reef"}})) == needed


@check(
    "Hard left and right make two mono feeds of one stereo outlet; both jacks have to be plugged",
    source=TRADE,
    kind="common practice, no source",
    right={"two amounts": ((60, 20), ["left", "right"], 3), "one amount": ((60, 60), ["centre", "centre"], 2)},
    wrong=((60, 20), ["centre", "centre"], 2),
)
def test_two_mono_feeds_of_a_stereo_outlet(of: tuple[tuple[int, int], list[str], int]) -> None:
    amounts, pans, count = of
    wishes = [
        {"treat": [part], "with": {"ducking": amount}, "key": "kick"}
        for part, amount in zip(("bass", "arp"), amounts, strict=True)
    ]
    parts = {"kick": {"on": "dock/PAD"}, "bass": {"on": "reef/1"}, "arp": {"on": "reef/2"}}
    plan = best(dock_and_reef(*wishes, parts=parts))
    assert plan is not None
    assert ([plan.parts[part].pan for part in ("bass", "arp")], len(plan.cables)) == (pans, count)


@check(
    "An engine without a part that stands on a channel in use sounds too: it has to move",
    source=TRADE,
    kind="common practice, no source",
    right={"on the channel": (1, True), "elsewhere": (5, False)},
    wrong=(1, False),
)
def test_idle_engines(of: tuple[int, bool]) -> None:
    stands, moves = of
    reef = module(engine=[named("1", channels=[1]), named("2", channel=stands)])
    plan = best(dock_and_reef(reef=reef, parts={"bass": {"on": "reef/1"}}))
    assert plan is not None
    assert (plan.engines["reef/2"].channel != stands) == moves


@check(
    "Two engines on one channel sound together, so a layer needs one track",
    source=TRADE,
    kind="common practice, no source",
    right={"a layer": ([{"layer": ["bass", "arp"]}], True), "no layer": ([], False)},
    wrong=([], True),
)
def test_layers_need_one_track(of: tuple[list[dict[str, Any]], bool]) -> None:
    intents, possible = of
    boxes = {"dock": one_lane(1), "reef": module()}
    parts = {"bass": {"on": "reef/1"}, "arp": {"on": "reef/2"}}
    assert (best(jam(boxes, parts, *intents)) is not None) == possible


@check(
    "Two outs do not share one inlet: a jack takes one plug",
    source=TRADE,
    kind="common practice, no source",
    right={"two inlets": (2, True), "one inlet": (1, False)},
    wrong=(1, True),
)
def test_outs_do_not_share_an_inlet(of: tuple[int, bool]) -> None:
    inlets, possible = of
    lines = [named(f"LINE {line}", mono=f"IN {line}") for line in range(inlets)]
    strips = [named(str(line), from_=f"LINE {line}") for line in range(inlets)]
    outs = [named(f"OUT {number}", way="out") for number in range(2)]
    boxes = {"dock": desk(in_=lines, strip=strips, midi=outs)}
    boxes |= {f"reef {number}": module(out=[named("OUT", mono="OUT")], engine=[named("1")]) for number in range(2)}
    parts = {f"part {number}": {"on": f"reef {number}"} for number in range(2)}
    assert (best(jam(boxes, parts, {"layer": list(parts)})) is not None) == possible


@check(
    "Past three thrus in a row, and from 10 ms between first and last note, people begin to worry",
    source=TRADE,
    kind="common practice, no source",
    right={"3 thrus, 10 ms": (3, 0.010)},
    wrong=(4, 0.010),
)
def test_when_people_worry(of: tuple[int, float]) -> None:
    assert of == (MOST_THRUS, TIGHT)


@check(
    "A module's own shared effects come back in stereo and bleed to the other side",
    source=TRADE,
    kind="common practice, no source",
    right={"two sides in use": (("left", "right"), True), "one side": (("left", "left"), False)},
    wrong=(("left", "left"), True),
)
def test_shared_effects_bleed(of: tuple[tuple[str, str], bool]) -> None:
    pans, warned = of
    kept = [{"keep": {"part": part, "pan": pan}} for part, pan in zip(("bass", "arp"), pans, strict=True)]
    table = dock_and_reef(*kept, parts={"bass": {"on": "reef/1"}, "arp": {"on": "reef/2"}})
    plan = best(table)
    assert plan is not None
    assert any("bleed across" in line for line in cautions(Followed(table, plan))) == warned


SAFE = (
    "Turn the volume all the way down before you plug or pull a cable.",
    "Never lift a safety earth to cure hum: use an isolator or balanced lines.",
    "Ask a qualified person about mains power; local codes apply.",
    "Power each box as its maker says, with the supply that its maker names.",
)


@check(
    "Every plan says: volume down before plugging, the maker's supply, never lift a safety earth, ask the qualified",
    source=TRADE,
    kind="common practice, no source",
    right={said: said for said in SAFE},
    wrong="Lift the earth to cure hum.",
)
def test_the_usual_cautions(said: str) -> None:
    table = dock_and_reef(parts={"bass": {"on": "reef/1"}})
    plan = best(table)
    assert plan is not None
    assert said in " ".join(sheet_text(table, plan, 80).split())
