"""MIDI 1.0 Detailed Specification, document version 4.2.1 (MIDI Manufacturers Association, 1996): cables and timing."""

from typing import Any

import pytest

from solver.flow.cautions import cautions
from solver.flow.followed import Followed
from solver.flow.timing import BYTE, NOTE, clock_load, running_bytes, spread, timing
from solver.gear.cables import SERIAL
from solver.jam.jam import Jam
from solver.plans import Plan
from tests.building import BASS, LEFT, box, cable, desk, dock_and_reef, jam, module, named
from tests.outside.checks import check
from tests.outside.planning import best, cables

BOOK = "MIDI 1.0 Detailed Specification 4.2.1"


def serial(number: int) -> Jam:
    """A leader, and so many modules that each have a MIDI in and a jack of their own; one MIDI out for all."""
    lines = [named(f"LINE {line}", mono=f"IN {line}") for line in range(number)]
    strips = [named(str(line), from_=f"LINE {line}") for line in range(number)]
    boxes = {"dock": desk(in_=lines, strip=strips, engine=[], track=[named("LANE")])}
    for line in range(number):
        sockets = {"out": [named("OUT", mono="OUT")], "midi": [named("MIDI IN", way="in")]}
        boxes[f"reef {line}"] = box(f"Reef {line}", engine=[named("1")], **sockets)
    parts = {f"part {line}": {"on": f"reef {line}"} for line in range(number)}
    return jam(boxes, parts, *([{"layer": list(parts)}] if number > 1 else []))


@check(
    "A byte takes 320 microseconds: 31.25 kbaud, a start bit, 8 bits and a stop bit",
    source=f"{BOOK}, p. 1 (Hardware)",
    kind="published",
    right=[320.0],
    wrong=256.0,
)
def test_a_byte(microseconds: float) -> None:
    assert pytest.approx(microseconds) == BYTE * 1e6


@check(
    "A note on takes 960 microseconds",
    source=f"{BOOK}, p. 9 (Note On)",
    kind="published",
    right=[960.0],
    wrong=640.0,
)
def test_a_note(microseconds: float) -> None:
    assert pytest.approx(microseconds) == NOTE * 1e6


@check(
    "The last of k notes that start together is 0.96 (k - 1) ms late, so 10 ms hold 11 notes and 20 ms hold 21",
    source=f"{BOOK}, p. 9 (computed)",
    kind="published",
    right={
        f"{notes} notes": (notes, ms)
        for notes, ms in ((1, 0), (2, 0.96), (4, 2.88), (11, 9.6), (12, 10.56), (21, 19.2))
    },
    wrong=(11, 10.56),
)
def test_notes_that_start_together(of: tuple[int, float]) -> None:
    notes, milliseconds = of
    assert spread(notes) * 1000 == pytest.approx(milliseconds)


@check(
    "With running status a run of k notes on one channel takes 320 (1 + 2 k) microseconds",
    source=f"{BOOK}, p. 5 and A-1 (computed)",
    kind="published",
    right=[(4, 2.88), (8, 5.44), (10, 6.72), (16, 10.56)],
    wrong=(4, 3.84),
)
def test_running_status(of: tuple[int, float]) -> None:
    notes, milliseconds = of
    assert running_bytes({1: notes}) * BYTE * 1000 == pytest.approx(milliseconds)


@check(
    "k notes on as many channels take 960 k microseconds: a new channel is a new status byte",
    source=f"{BOOK}, p. 5 and Table I (computed)",
    kind="published",
    right=[(4, 3.84), (8, 7.68), (10, 9.6), (16, 15.36)],
    wrong=(4, 2.88),
)
def test_running_status_over_channels(of: tuple[int, float]) -> None:
    notes, milliseconds = of
    assert running_bytes(dict.fromkeys(range(1, notes + 1), 1)) * BYTE * 1000 == pytest.approx(milliseconds)


def _planned_timing(of: Jam) -> dict[str, Any]:
    plan = best(of)
    assert plan is not None
    (cable,) = timing(Followed(of, plan))
    return cable.model_dump()


@check(
    "A plan tells how late the notes of its cable come: six on two channels, 4.8 ms, or 3.52 ms with running status",
    source=f"{BOOK}, p. 5 and p. 9 (computed)",
    kind="published",
    right={"4 and 2 notes": (4, 2, 4.8, 3.52)},
    wrong=(4, 2, 5.76, 3.52),
)
def test_late_notes_of_a_plan(of: tuple[int, int, float, float]) -> None:
    bass, arp, late, running = of
    parts = {"bass": {"on": "reef", "notes": bass}, "arp": {"on": "reef", "notes": arp}}
    found = _planned_timing(dock_and_reef(parts=parts))
    assert (found["late_ms"], found["running_late_ms"]) == pytest.approx((late, running))


@check(
    "The clock is 24 bytes a quarter note: at 120 beats a minute 48 of the 3125 bytes a second, 1.536 percent",
    source=f"{BOOK}, p. 30 (Timing Clock); share computed",
    kind="published",
    right={"120": (120, 1.536), "60": (60, 0.768), "118": (118, 1.5104)},
    wrong=(120, 3.072),
)
def test_the_load_of_the_clock(of: tuple[float, float]) -> None:
    tempo, percent = of
    assert 100 * clock_load(tempo) == pytest.approx(percent)
    of_plan = _planned_timing(dock_and_reef({"clock": ["reef"]}, parts={"bass": {"on": "reef"}}, tempo=tempo))
    assert of_plan["clock_percent"] == pytest.approx(percent, abs=0.0005)


@check(
    "One out drives one in: two boxes without a thru take two outs",
    source=f"{BOOK}, p. 1 (Hardware)",
    kind="published",
    right={"one box": (1, 2), "two boxes": (2, None)},
    wrong=(2, 4),
)
def test_an_out_drives_one_in(of: tuple[int, int | None]) -> None:
    boxes, needed = of
    assert cables(serial(boxes)) == needed


@check(
    "A thru copies what comes in, and nothing of its own box's notes",
    source=f"{BOOK}, p. 2 (THRU)",
    kind="published",
    right={"thru": ({"way": "thru", "copies": "IN"}, False), "out": ({"way": "out"}, True)},
    wrong=({"way": "thru", "copies": "IN"}, True),
)
def test_a_thru_sends_nothing_of_its_own(of: tuple[dict[str, str], bool]) -> None:
    socket, reaches = of
    player = box("Player", track=[named("LANE")], midi=[named("IN", way="in"), named("SOCKET") | socket])
    reef = module(engine=[named("1")])
    table = jam(
        {"dock": desk(), "player": player, "reef": reef}, {"bass": {"on": "reef"}}, {"play": ["bass"], "from": "player"}
    )
    assert (best(table) is not None) == reaches


@check(
    "Five-pin DIN and small plugs carry MIDI serially at this rate; USB does not",
    source=f"{BOOK}, p. 1 (Hardware)",
    kind="published",
    right={"serial": ("din", "trs", "din > trs-a", "din > trs-b")},
    wrong=("din", "trs", "din > trs-a", "din > trs-b", "usb"),
)
def test_serial_cables(kinds: tuple[str, ...]) -> None:
    assert kinds == SERIAL


@check(
    "Notes come late on a chain by bits that wear out, not by waiting: past three instruments a caution is due",
    source=f"{BOOK}, p. 1 and p. 2 (chains; three instruments, taken as three thrus in a row)",
    kind="published",
    right={"3": (3, False), "4": (4, True)},
    wrong=(3, True),
)
def test_long_chains(of: tuple[int, bool]) -> None:
    thrus, warned = of
    relay = box("Relay", midi=[named("IN", way="in"), named("THRU", way="thru", copies="IN")])
    boxes = {"dock": desk()} | {f"relay {number}": relay for number in range(thrus)} | {"reef": module()}
    froms = ["dock/MIDI OUT", *(f"relay {number}/THRU" for number in range(thrus))]
    tos = [*(f"relay {number}/IN" for number in range(thrus)), "reef/MIDI IN"]
    leads = [cable("din", *ends) for ends in zip(froms, tos, strict=True)]
    chained = Plan.model_validate({"title": "Test", "parts": {"bass": BASS}, "cables": [LEFT, *leads]})
    table = jam(boxes, ["bass"])
    assert timing(Followed(table, chained))[-1].late_ms == 0
    said = [line for line in cautions(Followed(table, chained)) if "thrus in a row" in line]
    assert bool(said) == warned
