"""How levels are said, and where the numbers come from."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from solver.flow.levels import CENTRE, HALF, decibels
from solver.flow.sound import Voice
from solver.flow.sound_way import AtEngine, AtOutlet, AtStrip, Level, OnCable, SoundWay
from solver.sheet.cells import NO_BREAK


def db_words(db: float) -> str:
    """A level, such as ``-3.0 dB``."""
    tenths = round(db, 1)
    return f"{tenths:+.1f}{NO_BREAK}dB" if tenths else f"0.0{NO_BREAK}dB"


def level_words(levels: Sequence[Level], sides: bool = True) -> str:
    """Levels side by side; those of a stereo part by its halves.

    Args:
        levels: Those of one point.
        sides: Whether the side is to be named where there is one alone.
    """
    if not sides and len({level.side for level in levels}) == 1:
        levels = [replace(level, side="mono") for level in levels]
    voices = tuple(dict.fromkeys(level.voice for level in levels))
    said = {voice: [level for level in levels if level.voice == voice] for voice in voices}
    if "whole" in said:
        return _side_words(said["whole"])
    own = all(len(there) == 1 and there[0].side in (voice, "mono") for voice, there in said.items())
    if own and len(said) == 2 and len({db_words(level.db) for level in levels}) == 1:
        return f"each half {db_words(levels[0].db)}"
    return "; ".join(_half_words(voice, there, own) for voice, there in said.items()) or "-"


def _half_words(voice: Voice, levels: list[Level], own: bool) -> str:
    return f"{voice} half {db_words(levels[0].db) if own else _side_words(levels)}"


def _side_words(levels: Sequence[Level]) -> str:
    said = [db_words(level.db) for level in levels]
    if levels[0].side == "mono":
        return said[0]
    if len(said) == 2 and said[0] == said[1]:
        return f"both sides {said[0]}"
    return ", ".join(f"{level.side} {db}" for level, db in zip(levels, said, strict=True))


def sources(way: SoundWay) -> Iterator[str]:
    """Where the numbers of a way come from: published, taught, or common practice only."""
    points = (*way.points, *way.aside)
    strips = [point for point in points if isinstance(point, AtStrip)]
    levels = [level for point in points if not isinstance(point, AtEngine) for level in point.levels]
    stereo = any(level.voice != "whole" for level in levels)
    summed = any(isinstance(point, OnCable) and point.sums for point in points) or way.mono is not None
    centre, half = db_words(decibels(CENTRE)), db_words(decibels(HALF))
    if not stereo and levels and levels[0].side != "mono":
        yield (
            f"Published (RP-036, pan by MIDI controller 10): {centre} on both sides at centre, {db_words(0.0)} hard on "
            "one. Engines are taken to pan like that."
        )
    wide = {point.outlet for point in points if isinstance(point, AtOutlet) and point.levels[0].side != "mono"}
    if any(not strip.stereo and strip.pan == "centre" and strip.outlet in wide for strip in strips):
        yield (
            f"Common practice: strips are taken to pan by the same law; desks differ, from -3 to -6{NO_BREAK}dB at "
            "centre."
        )
    if any(len(strip.company.parts) > 1 for strip in strips):
        yield (
            f"Textbook: N sounds equally loud come to 10 log N{NO_BREAK}dB above one if they are unrelated, to "
            f"20 log N{NO_BREAK}dB at worst, in phase, as parts of one layer may be."
        )
    if stereo:
        yield "Common practice: a stereo sound at centre keeps each half as it is."
    if summed or any(level.side == "mono" and level.voice != "whole" for level in levels):
        yield (
            f"Common practice: where both sides are summed into one, each is taken to count half, {half}; what is in "
            f"opposite phase on the two cancels. A box that adds them in full is 6{NO_BREAK}dB louder."
        )
    yield (
        "Taken as given: engines equally loud, faders at 0, no change of level by effects. A trim is where to start; "
        "go on by ear."
    )
