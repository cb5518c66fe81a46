"""The way of one part, from its track to the ears, as plain text for a terminal."""

from collections.abc import Iterator, Sequence

from solver.flow.note_way import NoteWay
from solver.flow.sound_way import AtEngine, AtOutlet, AtStrip, OnCable, Point, SoundWay
from solver.flow.trace import Trace
from solver.flow.wording import counted, listing
from solver.gear.words import Spot
from solver.jam.jam import Jam
from solver.sheet.cells import wrap
from solver.sheet.levels import db_words, level_words, sources
from solver.sheet.sections import SAFETY
from solver.sheet.stops import stop_words
from solver.sheet.tables import table
from solver.sheet.text import headed
from solver.sheet.words import amount_words, end_words, shift_words

HOWL = "It comes round again at {}: such a loop can howl. Turn the volume down before you pull a cable of it."


def trace_text(jam: Jam, found: Trace, width: int) -> str:
    """Write whether a part is heard, the way of its notes and sound, and what shares its strips.

    Args:
        jam: What the part belongs to.
        found: The part, followed.
        width: Cells a line may take, 80 to 100.
    """
    lines = headed(f"{found.part} in {jam.title}: from track to ears", "=", width)
    lines += _headline(jam, found, width)
    if found.sound is not None and found.sound.round is not None:
        lines += wrap(HOWL.format(found.sound.round), width)
    if found.notes is not None and found.sound is not None:
        played = "" if found.sound.stops or not found.notes.stops else ", once it is played"
        for title, section in (
            ("Notes", notes_section(found.notes, width)),
            (f"Sound{played}, in dB against its engine", sound_section(jam, found.sound, width)),
            ("What shares its strips", shared_section(found.sound, width)),
            ("Where the numbers come from", _listed([*sources(found.sound), SAFETY[-1]], width)),
        ):
            lines += ["", *headed(title, "-", width), *section] if section else []
    return "\n".join(lines) + "\n"


def _headline(jam: Jam, found: Trace, width: int) -> list[str]:
    if found.sound is None or found.stops:
        return ["Silent:", *_listed([stop_words(stop) for stop in found.stops], width)]
    return wrap(f"Heard on {jam.listen}: {_heard_words(found.sound)}.", width)


def _heard_words(way: SoundWay) -> str:
    said = level_words(way.heard)
    if way.mono is not None:
        return f"{said}; {db_words(way.mono)} in mono mains"
    halves = {level.voice for level in way.heard}
    if halves in ({"left"}, {"right"}):
        return f"{said}; its other half is lost"
    missing = "mono" not in (level.side for level in way.heard) and len({level.side for level in way.heard}) == 1
    return f"{said}; nothing on the other side" if missing else said


def notes_section(way: NoteWay, width: int) -> list[str]:
    """The track, the cables and the engine; other ways to the same box in a line of their own."""
    rows = [(f"track {way.track}", _track_words(way))]
    hops = way.ways[0] if way.ways else ()
    rows += [(f"cable {hop.number}, {hop.cable.kind}", f"{hop.source} -> {hop.target}") for hop in hops]
    rows.append((f"engine {way.engine}", _engine_words(way)))
    lines = table(("where", "what happens there"), rows, width)
    for other in way.ways[1:]:
        cables = ", ".join(str(hop.number) for hop in other)
        lines += wrap(f"The same notes also come to {other[-1].target}, over {_cables(len(other))} {cables}.", width)
    return lines


def _cables(number: int) -> str:
    return "cable" if number == 1 else "cables"


def _track_words(way: NoteWay) -> str:
    said = "sends nothing out" if way.channel is None else f"sends on channel {way.channel}"
    if way.inside:
        said = f"plays {way.engine} inside its box, whatever the channel; {said}"
    return f"{said}; plays {listing(way.together)} too" if way.together else said


def _engine_words(way: NoteWay) -> str:
    if way.listens == "off":
        return "listens to no channel"
    return "listens to all channels" if way.listens == "all" else f"listens to channel {way.listens}"


def sound_section(jam: Jam, way: SoundWay, width: int) -> list[str]:
    """Each point with its levels; then where else the sound goes."""
    rows = [_row(jam, point) for point in way.points]
    if way.mono is not None:
        rows.append(("mains", "mono: both sides summed", db_words(way.mono)))
    lines = table(("where", "what happens there", "level"), rows, width)
    aside = [point.outlet if isinstance(point, AtOutlet) else point.strip for point in _spots(way.aside)]
    if aside:
        lines += ["", *wrap(f"It is on {listing(aside)} too; from there no way leads to your ears.", width)]
    return lines


def _spots(points: Sequence[Point]) -> Iterator[AtOutlet | AtStrip]:
    yield from (point for point in points if isinstance(point, AtOutlet | AtStrip))


def _row(jam: Jam, point: Point) -> tuple[str, str, str]:
    match point:
        case AtEngine():
            said = [_panned(jam, point.engine, point.pan, point.outlet, False)]
            said += [f"shift {shift_words(point.shift)}"] if point.shift else []
            return f"engine {point.engine}", "; ".join([*said, *_amounts(point)]), db_words(0.0)
        case AtOutlet():
            ears = point.outlet == jam.ears
            said = [f"carries what {point.mirrors} carries"] if point.mirrors is not None else []
            said += ["your ears"] if ears else []
            return f"outlet {point.outlet}", "; ".join(said), level_words(point.levels)
        case OnCable():
            said = [f"{end_words(point.cable.source)} -> {end_words(point.cable.to)}"]
            said += ["the left jack alone carries both sides"] if point.sums else []
            said += ["the left jack alone feeds both sides"] if point.copies else []
            return f"cable {point.number}, {point.cable.kind}", "; ".join(said), level_words(point.levels, sides=False)
        case AtStrip():
            said = [*_amounts(point)]
            said += [_panned(jam, point.strip, point.pan, point.outlet, point.stereo)] if point.outlet else []
            return f"strip {point.strip}", "; ".join(said), level_words(point.levels, sides=point.stereo)


def _panned(jam: Jam, spot: Spot, pan: str, outlet: Spot, stereo: bool) -> str:
    mono = jam.rig.outlets[outlet].sides == ("mono",)
    if stereo or mono:
        return f"{'stereo, ' if stereo else ''}to {outlet.name}"
    return f"pan {pan}, to {outlet.name}"


def _amounts(point: AtEngine | AtStrip) -> Iterator[str]:
    for effect, amount in point.amounts.items():
        yield f"{effect} {amount_words(effect, amount, point.key)}"


def shared_section(way: SoundWay, width: int) -> list[str]:
    """What each strip on the way carries, and where to start with its trim."""
    return _listed([_shared_words(point) for point in way.points if isinstance(point, AtStrip)], width)


def _shared_words(point: AtStrip) -> str:
    shared = point.company
    trim = f"Start with its trim at {db_words(shared.trim)}."
    if len(shared.parts) == 1:
        return f"{point.strip} carries {shared.parts[0]} alone, at {db_words(shared.worst)}. {trim}"
    said = f"{point.strip} carries {counted(len(shared.parts), 'part')}: {listing(shared.parts)}."
    likely = f"Together they come to {db_words(shared.likely)} if they are unrelated"
    if shared.layered:
        likely += f", at worst to {db_words(shared.worst)}, with {listing(shared.layered)} in phase"
    return f"{said} {likely}. {trim}"


def _listed(sentences: Sequence[str], width: int) -> list[str]:
    return [line for sentence in sentences for line in wrap(sentence, width, "- ", "  ")]
