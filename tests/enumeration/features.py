"""What files and rules can say, and which of it one jam says."""

from collections.abc import Iterator

from solver.gear.box import Engine, Port, Strip
from solver.gear.rig import Rig
from solver.jam.intents import Avoid, Keep, Layer, Separate, Treat
from solver.jam.jam import Jam

FEATURES = frozenset(
    {
        *(f"{way} {shape}" for way in ("outlet", "inlet") for shape in ("pair", "stereo", "mono")),
        *("sum", "copy", "mirrors", "listening to a mirror", "listening to mono", "listening elsewhere", "mono mains"),
        *("plug 6.35", "plug 3.5", "plug din", "plug trs-a", "plug trs-b", "plug usb-host", "plug usb-device"),
        *(
            "pan full",
            "pan sides",
            "pan fixed",
            "many outlets",
            "stereo strip",
            "strip of a track",
            "two parts a layer",
        ),
        *("strip effects", "strip keys", "engine effects", "engine keys", "hears all", "hears nothing"),
        *("engine can be off", "track can be off", "track plays", "program change", "voices", "drawer"),
        *("out port", "in port", "thru port", "both port", "repeats", "merger", "no clock"),
        *("layer", "shift", "separate", "separate at", "treat", "treat at", "treat 0", "ducking", "stereo", "play"),
        *("match", "clock", "program", "avoid channels", "avoid jacks", "avoid ports"),
        *("keep cable", "keep engine", "keep channel", "keep pan", "keep track", "keep strip"),
    }
)
"""Everything that jams should say now and then."""


def features(jam: Jam) -> set[str]:
    """What of it a jam says."""
    return {*_of_sockets(jam.rig), *_of_boxes(jam), *_of_wishes(jam), *_of_ears(jam)}


def _of_sockets(rig: Rig) -> Iterator[str]:
    for way, connections in (("outlet", rig.outlets), ("inlet", rig.inlets)):
        for connection in connections.values():
            shape = "pair" if connection.left is not None else "mono" if connection.mono is not None else "stereo"
            yield from (f"{way} {shape}", f"plug {connection.plug}")
    yield from (outlet.alone for outlet in rig.outlets.values())
    yield from (inlet.alone for inlet in rig.inlets.values())
    yield from ("mirrors" for outlet in rig.outlets.values() if outlet.mirrors)
    for port in rig.ports.values():
        yield from _of_port(port)


def _of_port(port: Port) -> Iterator[str]:
    yield from (f"{port.way} port", f"plug {port.plug}")
    if port.repeats:
        yield "repeats"
    if len(port.repeats) > 1:
        yield "merger"
    if not port.clock:
        yield "no clock"


def _of_ears(jam: Jam) -> Iterator[str]:
    outlet = jam.rig.outlets[jam.ears]
    said = {
        "listening to a mirror": outlet.mirrors is not None,
        "listening to mono": outlet.mono is not None,
        "listening elsewhere": jam.ears.box != jam.leader,
        "mono mains": jam.mains == "mono",
    }
    yield from (name for name, holds in said.items() if holds)


def _of_boxes(jam: Jam) -> Iterator[str]:
    rig = jam.rig
    for emitter in rig.emitters.values():
        yield f"pan {emitter.pan}"
        kind = "strip" if isinstance(emitter, Strip) else "engine"
        said = {"many outlets": len(emitter.to) > 1, f"{kind} effects": emitter.offers, f"{kind} keys": emitter.key}
        yield from (name for name, holds in said.items() if holds)
    yield from ("stereo strip" for strip in rig.strips if rig.is_stereo_strip(strip))
    yield from ("strip of a track" for strip in rig.strips.values() if strip.track)
    for engine in rig.engines.values():
        yield from _of_engine(engine)
    for track in rig.tracks.values():
        said = {"track can be off": track.can_be_off, "track plays": track.plays}
        yield from (name for name, holds in said.items() if holds)
    yield from ("voices" for box in rig.boxes.values() if box.voices)


def _of_engine(engine: Engine) -> Iterator[str]:
    said = {
        "hears all": engine.channels == "all",
        "hears nothing": engine.channels == (),
        "engine can be off": engine.can_be_off,
        "program change": engine.program_change,
    }
    yield from (name for name, holds in said.items() if holds)


def _of_wishes(jam: Jam) -> Iterator[str]:
    if jam.cables is not None:
        yield "drawer"
    if any(len(layer) > 1 for layer in jam.layers):
        yield "two parts a layer"
    for intent in jam.intents:
        yield intent.kind
        if isinstance(intent, Keep):
            yield from (f"keep {form}" for form in intent.keep.model_fields_set if form != "part")
        elif isinstance(intent, Avoid):
            yield from (f"avoid {what}" for what in intent.avoid.model_fields_set)
        elif isinstance(intent, Layer) and any(intent.shift.values()):
            yield "shift"
        elif isinstance(intent, Separate | Treat) and intent.at is not None:
            yield f"{intent.kind} at"
        if isinstance(intent, Treat):
            yield from ("treat 0" for amount in intent.amounts.values() if not amount)
            yield from ("ducking" for effect, amount in intent.amounts.items() if effect == "ducking" and amount)
