"""General MIDI 1 (RP-003) and General MIDI 2, version 1.2a (MIDI Manufacturers Association and AMEI, 2007)."""

from solver.gear.box_doubts import box_doubts
from solver.sheet.hand_steps import LOUD
from solver.sheet.midi_file import NOTES
from tests.building import box, named
from tests.outside.checks import check


@check(
    "Channel 10 is for drums: a synth that stands there is doubtful, a drum is not, and no other channel is",
    source="General MIDI 2, section 2.4; General MIDI 1 overview (read in a secondary text)",
    kind="published",
    right={"10": 10},
    wrong=9,
)
def test_the_drum_channel(drums: int) -> None:
    def doubted(channel: int, sound: str) -> bool:
        table = box(engine=[named("1", channel=channel, sound=sound)], midi=[named("IN", way="in", clock=True)])
        return any("which is often for drums" in doubt.sentence for doubt in box_doubts(table))

    assert [channel for channel in range(1, 17) if doubted(channel, "synth")] == [drums]
    assert not doubted(drums, "drum")


@check(
    "The line check sets the volume to the start value of controller 7",
    source="General MIDI 2, section 3.3.4",
    kind="published",
    right={"100": 100},
    wrong=127,
)
def test_the_volume_of_a_line_check(volume: int) -> None:
    assert volume == LOUD


@check(
    "The notes of a line check are drums too: keys 35 to 81",
    source="General MIDI 1, percussion key map",
    kind="from memory",
    right={"35 to 81": (35, 81)},
    wrong=(35, 59),
)
def test_the_notes_of_a_line_check(keys: tuple[int, int]) -> None:
    first, last = keys
    assert all(first <= note <= last for note in NOTES)
