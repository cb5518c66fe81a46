"""A box as one sees it from outside and as it stands: sockets first, then what is behind them."""

from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import Any, NamedTuple

from solver.flow.wording import listing
from solver.gear.box import Box, Emitter, Engine, Port, Strip, Track
from solver.gear.connections import Connection, Inlet, Outlet
from solver.gear.words import Channel, Side
from solver.sheet.boxes import short
from solver.sheet.cells import width_of, wrap
from solver.sheet.tables import table
from solver.sheet.words import MEMORIES, listed, spans

PLUGS = {
    "6.35": "6.35 mm",
    "3.5": "3.5 mm",
    "din": "DIN",
    "trs-a": "TRS type A",
    "trs-b": "TRS type B",
    "usb-host": "USB, host",
    "usb-device": "USB, device",
}
PANS = {"full": "anywhere", "sides": "left, centre, right", "fixed": "centre only"}
SIDES: dict[tuple[Side, ...], str] = {
    ("left",): "left",
    ("right",): "right",
    ("left", "right"): "both (stereo)",
    ("mono",): "mono",
}
WAYS = {"out": "out", "in": "in", "thru": "thru", "both": "in and out"}


class Section(NamedTuple):
    """One part of the sheet: its headline, and tables of headers and rows."""

    title: str
    tables: Sequence[tuple[Sequence[str], Sequence[Sequence[str]]]]


def box_text(box: Box, file: Path, width: int) -> str:
    """Everything that a box file says, as tables in plain words.

    Args:
        box: what the file describes.
        file: where it stands.
        width: cells a line may take.
    """
    lines = _headed(box.name, "=", width)
    for sentence in _introduced(box, file):
        lines += wrap(sentence, width)
    for title, tables in _sections(box):
        drawn = [table(*_told(headers, rows), width) for headers, rows in tables if rows]
        for number, one in enumerate(drawn):
            lines += ["", *([] if number else _headed(title, "-", width)), *one]
    return "\n".join(lines) + "\n"


def box_data(box: Box, file: Path) -> dict[str, Any]:
    """The same for programs: the keys of a box file with every value, those left out too."""
    return {"file": str(file), "box": box.model_dump(mode="json", by_alias=True)}


def _told(headers: Sequence[str], rows: Sequence[Sequence[str]]) -> tuple[list[str], list[list[str]]]:
    """A table without the columns that tell nothing of any row."""
    told = [i for i in range(len(headers)) if i == 0 or any(row[i] != "-" for row in rows)]
    return [headers[i] for i in told], [[row[i] for i in told] for row in rows]


def _headed(title: str, sign: str, width: int) -> list[str]:
    lines = wrap(title, width)
    return [*lines, sign * max(map(width_of, lines))]


def _introduced(box: Box, file: Path) -> Iterable[str]:
    if box.about:
        yield f"{box.about[0].upper()}{box.about[1:]}{'' if box.about.endswith('.') else '.'}"
    yield f"Described in {short(file)}."
    if box.voices is not None:
        yield f"It can sound {box.voices} {'note' if box.voices == 1 else 'notes'} at once."
    if box.name_length is not None:
        yield f"Its screen takes project names of up to {box.name_length} letters."


def _sections(box: Box) -> tuple[Section, ...]:
    jacks = ("jack", "side", "plug", "plugged alone")
    emitter = ("goes to", "pan", "effects", "ducking triggered by")
    return (
        Section(
            "Sound out", [(("outlet", *jacks, "the same as"), [row for out in box.outlets for row in _outlet(out)])]
        ),
        Section("Sound in", [(("inlet", *jacks), [row for inlet in box.inlets for row in _inlet(inlet)])]),
        Section("MIDI", [(("socket", "way", "plug", "passes on", "clock"), [*map(_port, box.ports)])]),
        Section(
            "Mixer strips",
            [
                (("strip", "fed by", "worked by track"), [_strip(box, strip) for strip in box.strips]),
                (("strip", *emitter), [_emitter(box, strip) for strip in box.strips]),
            ],
        ),
        Section(
            "Engines",
            [
                (
                    ("engine", "sound", "stands on", "can be set to", "shift", "program change", "played by track"),
                    [_engine(box, engine) for engine in box.engines],
                ),
                (("engine", *emitter), [_emitter(box, engine) for engine in box.engines]),
            ],
        ),
        Section(
            "Tracks",
            [(("track", "stands on", "can send on", "plays", "program change"), [*map(_track, box.tracks)])],
        ),
        Section("What is stored where", [(("what", "setting", "stored by"), _stored(box))]),
    )


def _outlet(outlet: Outlet) -> Iterator[tuple[str, ...]]:
    both = outlet.alone == "sum"
    for row in _jacks(outlet, "both sides summed" if both else "its own side", "its own side"):
        yield *row, outlet.mirrors or "-"


def _inlet(inlet: Inlet) -> Iterator[tuple[str, ...]]:
    both = inlet.alone == "copy"
    yield from _jacks(inlet, "both sides" if both else "its own side", "its own side")


def _jacks(at: Connection, left: str, right: str) -> Iterator[tuple[str, ...]]:
    """A row for each jack, the name of the outlet or inlet in the first.

    Args:
        at: the outlet or inlet.
        left: what a plug alone carries or feeds in the left jack of a pair.
        right: the same of the right jack.
    """
    for number, jack in enumerate(at.jacks):
        alone = (left, right)[number] if at.paired else "-"
        yield "" if number else at.name, jack.label, SIDES[jack.sides], PLUGS[jack.plug], alone


def _port(port: Port) -> tuple[str, ...]:
    return port.name, WAYS[port.way], PLUGS[port.plug], listed(port.passes_on), "passes" if port.clock else "-"


def _strip(box: Box, strip: Strip) -> tuple[str, ...]:
    inlet, sides = box.source(strip)
    jacks = [jack for jack in inlet.jacks if set(jack.sides) & set(sides)]
    where = listing(jack.label for jack in jacks)
    if len(sides) == 2:
        where += ", both sides"
    elif jacks[0].stereo:
        where += f", {sides[0]} side"
    return strip.name, where, strip.track or "-"


def _emitter(box: Box, thing: Emitter) -> tuple[str, ...]:
    stereo = isinstance(thing, Strip) and len(box.source(thing)[1]) == 2
    pan = "keeps both sides" if stereo else PANS[thing.pan]
    to = ", or ".join(outlet.name for outlet in box.outlets_of(thing)) or "-"
    return thing.name, to, pan, listed(thing.offers), listed(thing.key)


def _engine(box: Box, engine: Engine) -> tuple[str, ...]:
    inside = listed(track.name for track in box.tracks if track.plays == engine.name)
    shift = f"up to {engine.shift}" if engine.shift else "-"
    stands = "no channel" if engine.channels == () else _channels((engine.stands,))
    options = "-" if engine.channels == () else _channels(engine.options)
    obeys = "obeys" if engine.program_change else "-"
    return engine.name, engine.sound or "-", stands, options, shift, obeys, inside


def _track(track: Track) -> tuple[str, ...]:
    stands = _channels((track.stands,)) if track.channels else "nothing sent out"
    options = _channels(track.options) if track.channels else "-"
    return track.name, stands, options, track.plays or "-", "sends" if track.program_change else "-"


def _channels(channels: Iterable[Channel]) -> str:
    given = list(channels)
    words = spans(channel for channel in given if isinstance(channel, int))
    return ", ".join([*words, *("all channels" if word == "all" else word for word in given if isinstance(word, str))])


def _stored(box: Box) -> list[tuple[str, str, str]]:
    """What can be set, and who stores it; things of a kind that agree share a row."""
    rows: dict[tuple[str, str, str], list[str]] = {}
    things: list[tuple[str, Strip | Engine | Track]] = [
        *(("strip", strip) for strip in box.strips),
        *(("engine", engine) for engine in box.engines),
        *(("track", track) for track in box.tracks),
    ]
    for kind, thing in things:
        by: dict[str, list[str]] = {}
        for what in _settings(box, thing):
            by.setdefault(MEMORIES[thing.memory(what)], []).append(what)
        for memory, settings in by.items():
            rows.setdefault((kind, ", ".join(settings), memory), []).append(thing.name)
    return [
        (f"{kind}{'s' if len(names) > 1 else ''} {', '.join(names)}", settings, memory)
        for (kind, settings, memory), names in rows.items()
    ]


def _settings(box: Box, thing: Strip | Engine | Track) -> Iterable[str]:
    """The settings of a thing that can be more than one way."""
    if not isinstance(thing, Strip) and len(thing.options) > 1:
        yield "channel"
    if isinstance(thing, Track):
        return
    stereo = isinstance(thing, Strip) and len(box.source(thing)[1]) == 2
    if thing.pan != "fixed" and not stereo:
        yield "pan"
    if len(box.outlets_of(thing)) > 1:
        yield "outlet"
    yield "level"
    if isinstance(thing, Engine) and thing.shift:
        yield "shift"
    yield from thing.offers
