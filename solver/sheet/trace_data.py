"""The way of one part as JSON data."""

from collections.abc import Sequence
from typing import Any

from solver.flow.note_way import NoteWay
from solver.flow.sound_way import AtEngine, AtOutlet, AtStrip, Level, OnCable, Point, SoundWay
from solver.flow.trace import Trace
from solver.gear.words import Spot
from solver.jam.jam import Jam
from solver.sheet.levels import sources
from solver.sheet.stops import stop_words

Data = dict[str, Any]


def trace_data(jam: Jam, found: Trace) -> Data:
    """A part, followed; levels are in dB against its engine, to two places."""
    return {
        "title": jam.title,
        "part": found.part,
        "status": "heard" if found.heard else "silent",
        "stops": [
            {"cause": stop.cause, "at": stop.at, "about": list(stop.about), "sentence": stop_words(stop)}
            for stop in found.stops
        ],
        "notes": _notes(found.notes) if found.notes is not None else None,
        "sound": _sound(found.sound) if found.sound is not None else None,
    }


def _notes(way: NoteWay) -> Data:
    return {
        "track": str(way.track),
        "channel": way.channel,
        "together": list(way.together),
        "inside": way.inside,
        "ways": [
            [
                {"cable": hop.number, "kind": hop.cable.kind, "from": str(hop.source), "to": str(hop.target)}
                for hop in hops
            ]
            for hops in way.ways
        ],
        "engine": str(way.engine),
        "listens": way.listens,
    }


def _sound(way: SoundWay) -> Data:
    return {
        "points": [_point(point) for point in way.points],
        "aside": [_point(point) for point in way.aside],
        "heard": _levels(way.heard),
        "mono": _db(way.mono) if way.mono is not None else None,
        "round": _spot(way.round),
        "sources": list(map(_plain, sources(way))),
    }


def _point(point: Point) -> Data:
    match point:
        case AtEngine():
            return {
                "point": "engine",
                "engine": str(point.engine),
                "listens": point.listens,
                "shift": point.shift,
                **_sent(point),
            }
        case AtOutlet():
            return {
                "point": "outlet",
                "outlet": str(point.outlet),
                "mirrors": _spot(point.mirrors),
                "levels": _levels(point.levels),
            }
        case OnCable():
            return {
                "point": "cable",
                "cable": point.number,
                **point.cable.model_dump(mode="json", by_alias=True),
                "sums": point.sums,
                "copies": point.copies,
                "levels": _levels(point.levels),
            }
        case AtStrip():
            shared = point.company
            return {
                "point": "strip",
                "strip": str(point.strip),
                "stereo": point.stereo,
                **_sent(point),
                "levels": _levels(point.levels),
                "parts": list(shared.parts),
                "layered": list(shared.layered),
                "likely": _db(shared.likely),
                "worst": _db(shared.worst),
                "trim": _db(shared.trim),
            }


def _sent(point: AtEngine | AtStrip) -> Data:
    return {"pan": point.pan, "outlet": _spot(point.outlet), "settings": point.amounts, "key": point.key}


def _spot(spot: Spot | None) -> str | None:
    return str(spot) if spot is not None else None


def _levels(levels: Sequence[Level]) -> list[Data]:
    return [{"side": level.side, "voice": level.voice, "db": _db(level.db)} for level in levels]


def _db(db: float) -> float:
    return round(db, 2) + 0.0  # no minus before a zero


def _plain(sentence: str) -> str:
    return sentence.replace("\xa0", " ")
