"""MIDI 1.0 Detailed Specification, document version 4.2.1 (MIDI Manufacturers Association, 1996): what is sent."""

from typing import Any

import pytest

from solver.gear.words import ALL_CHANNELS
from solver.jam.jam import Jam
from solver.plans import Plan
from solver.sheet.hand_steps import hand_steps
from solver.sheet.midi_file import midi_file
from tests.building import BASS, box, desk, dock_and_reef, jam, module, named, plain_plan
from tests.outside.checks import check
from tests.outside.planning import best, cables

BOOK = "MIDI 1.0 Detailed Specification 4.2.1"

Message = tuple[int, int, int]


def _line_check(of: Plan, table: Jam | None = None) -> list[Message]:
    """The channel messages of a line check, cut out of its file by hand."""
    data = iter(midi_file(table or dock_and_reef(), of).partition(b"MTrk")[2][4:])
    found: list[Message] = []
    status = 0
    for time in data:
        wait = time
        while wait & 0x80:  # the time before a message ends with the first byte below 80
            wait = next(data)
        first = next(data)
        if first == 0xFF:  # a text, a tempo or the end: its kind, its length, and so many bytes
            next(data)
            for _ in range(next(data)):
                next(data)
        elif first & 0x80:
            status = first
            found.append((status, next(data), next(data)))
        else:  # running status
            found.append((status, first, next(data)))
    return found


@check(
    "The low four bits of a status byte are the channel less 1",
    source=f"{BOOK}, Table I, note (T-1)",
    kind="published",
    right=[(1, 0x0), (10, 0x9), (16, 0xF)],
    wrong=(10, 0xA),
)
def test_status_bytes_count_channels_from_0(of: tuple[int, int]) -> None:
    channel, low = of
    plan = plain_plan(bass=BASS | {"channel": channel}, engines={"reef/1": {"channel": channel}}, without=["arp"])
    sent = _line_check(plan)
    assert sent and {message[0] & 0x0F for message in sent} == {low}


@check(
    "Note on is 9n, note off 8n, control change Bn; the line check sends nothing else",
    source=f"{BOOK}, Table I",
    kind="published",
    right={"statuses": frozenset({0x80, 0x90, 0xB0})},
    wrong=frozenset({0x80, 0x90, 0xC0}),
)
def test_kinds_of_messages(statuses: frozenset[int]) -> None:
    assert {message[0] & 0xF0 for message in _line_check(plain_plan())} == statuses


@check(
    "Volume is controller 7, pan 10, all notes off 123",
    source=f"{BOOK}, Tables III and IV (T-3, T-5)",
    kind="published",
    right={"controllers": (7, 10, 123)},
    wrong=(7, 8, 123),
)
def test_controllers(numbers: tuple[int, int, int]) -> None:
    sent = _line_check(plain_plan())
    assert tuple(dict.fromkeys(message[1] for message in sent if message[0] & 0xF0 == 0xB0)) == numbers
    assert sent[-1][1:] == (numbers[-1], 0)


@check(
    "Coarse tuning (RPN 2, by controllers 101 and 100) moves a whole channel: a layer's shifts are set by hand",
    source=f"{BOOK}, p. 18 (Registered Parameter Numbers)",
    kind="published",
    right={"an octave down": -12},
    wrong=0,
)
def test_coarse_tuning_is_of_a_channel(shift: int) -> None:
    parts = {"bass": {"on": "reef/1"}, "arp": {"on": "reef/2"}}
    table = dock_and_reef({"layer": ["bass", "arp"], "shift": {"bass": shift}}, parts=parts)
    plan = best(table)
    assert plan is not None
    assert not {message[1] for message in _line_check(plan, table)} & {100, 101}
    assert any(f"Set the shift of reef/1 to {shift} semitones by hand" in step for step in hand_steps(table, plan))


@check(
    "A cable carries channels 1 to 16, and box files know no other",
    source=f"{BOOK}, p. 3 (Data Format)",
    kind="published",
    right={"1 to 16": (1, 16)},
    wrong=(0, 15),
)
def test_channels(of: tuple[int, int]) -> None:
    first, last = of
    assert tuple(range(first, last + 1)) == ALL_CHANNELS
    for channel, taken in ((first - 1, False), (first, True), (last, True), (last + 1, False)):
        table = {"name": "1", "channels": [channel]}
        if taken:
            assert box(engine=[table]).engines[0].channels == (channel,)
        else:
            with pytest.raises(ValueError, match="channel"):
                box(engine=[table])


@check(
    "Clock carries no channel: a box that listens to none follows it",
    source=f"{BOOK}, p. 5 and p. 30 (System Real-Time)",
    kind="published",
    right={"no channel": []},
    wrong="1-16",
)
def test_clock_has_no_channel(channels: Any) -> None:
    deaf = box("Reel", engine=[named("1", channels=channels)], midi=[named("IN", way="in", clock=True)])
    assert deaf.engines[0].channels == ()
    assert cables(jam({"dock": desk(), "reel": deaf}, ["kick"], {"clock": ["reel"]})) == 1


@check(
    "As it comes, a box may answer on every channel (mode 1, omni on): such an engine has to be turned down",
    source=f"{BOOK}, p. 8 and p. 21 (power-up), p. 20 (modes)",
    kind="published",
    right={"omni on": ("all", 1), "omni off": ([2], 0)},
    wrong=("all", 0),
)
def test_omni_hears_every_channel(of: tuple[Any, int]) -> None:
    channels, silenced = of
    reef = module(engine=[named("1", channels=[1]), named("2", channels=channels)])
    plan = best(dock_and_reef(reef=reef, parts={"bass": {"on": "reef/1"}}))
    assert plan is not None and plan.goals is not None
    assert plan.goals.silenced == silenced
