"""An invented rig of ten boxes in three columns, with a plan made by hand that has every kind of cable and socket.

The plan need not be a good one: a drawing shows what is plugged.
"""

from collections.abc import Iterable
from typing import Any

from solver.gear.box import Box
from solver.jam.jam import Jam
from solver.plans import Plan
from tests.building import box, cable, jam, lives, named, plan

MONO, STEREO = "6.35 mono", "6.35 stereo"


def _voice(name: str, *, thru: str = "din", engines: int = 2) -> Box:
    """A module with a stereo outlet as a pair, a MIDI in and a thru."""
    return box(
        name,
        out=[named("MAIN", left="L/MONO", right="R", alone="sum")],
        engine=[named(str(n), channel=n) for n in range(1, engines + 1)],
        midi=[named("MIDI IN", way="in", clock=True), named("MIDI THRU", way="thru", plug=thru, copies="MIDI IN")],
    )


def _pairs(numbers: Iterable[int]) -> list[dict[str, Any]]:
    return [named(f"LINE {n}", left=f"LINE {n}", right=f"LINE {n + 1}") for n in numbers]


def _helm() -> Box:
    """The desk at the end: eight line inputs, a stereo return, three ways out for notes."""
    strips = [
        named(f"LINE {n + right}", from_=f"LINE {n}/{side}")
        for n in (1, 3, 5, 7)
        for right, side in enumerate(("left", "right"))
    ]
    return box(
        "Helm",
        out=[named("MAIN", left="MAIN L", right="MAIN R"), named("CUE", stereo="CUE", plug="3.5")],
        in_=[*_pairs((1, 3, 5, 7)), named("RETURN", stereo="RETURN")],
        strip=[*strips, named("RETURN", from_="RETURN")],
        track=[named(f"TRK {n}", channel=n) for n in range(1, 13)],
        midi=[
            named("MIDI OUT A", way="out", clock=True),
            named("MIDI OUT B", way="out", clock=True),
            named("HOST", way="both", plug="usb-host", clock=True),
            named("MIDI IN", way="in"),
        ],
    )


def ten_boxes() -> tuple[Jam, Plan]:
    """The jam and its plan: 21 cables, two of them breakouts."""
    boxes = {
        "helm": _helm(),
        "mole": box(
            "Mole",
            out=[named("MIX", left="MIX L", right="MIX R"), named("SEND", stereo="SEND")],
            in_=[*_pairs((1, 3, 5)), named("AUX", stereo="AUX", plug="3.5")],
            strip=[named(f"S{n}{s[0]}", from_=f"LINE {n}/{s}") for n in (1, 3, 5) for s in ("left", "right")],
        ),
        "keel": _voice("Keel"),
        "spar": _voice("Spar", thru="trs-a"),
        "buoy": box(
            "Buoy",
            out=[named("OUT", mono="OUT")],
            engine=[named("VOICE")],
            midi=[named("NOTES", way="in", plug="trs-a")],
        ),
        "gull": _voice("Gull"),
        "tern": box(
            "Tern",
            out=[named("PHONES", stereo="PHONES", plug="3.5")],
            engine=[named("1"), named("2")],
            midi=[named("PORT", way="both", plug="usb-device", clock=True)],
        ),
        "jetty": box(
            "Jetty",
            out=[named("DRUMS", stereo="DRUMS"), named("CLAP", mono="CLAP"), named("RIM", mono="RIM")],
            engine=[named(f"D{n}") for n in range(1, 5)],
            midi=[named("MIDI IN", way="in", clock=True)],
        ),
        "oar": box("Oar", track=[named("KEYS")], midi=[named("KEYS OUT", way="out")]),
        "weir": box(
            "Weir",
            midi=[
                named("IN A", way="in", clock=True),
                named("IN B", way="in"),
                named("OUT", way="out", repeats=["IN A", "IN B"], clock=True),
            ],
        ),
    }
    parts = {
        "sub": lives("keel/1", "helm/TRK 1", 1),
        "pad": lives("keel/2", "helm/TRK 2", 2),
        "arp": lives("spar/1", "helm/TRK 3", 3, "left"),
        "glass": lives("spar/2", "helm/TRK 4", 4, "right"),
        "bell": lives("buoy/VOICE", "helm/TRK 5", 5, outlet="OUT"),
        "choir": lives("gull/1", "oar/KEYS", 6),
        "stab": lives("tern/1", "helm/TRK 7", 7, "left", outlet="PHONES"),
        "hiss": lives("tern/2", "helm/TRK 8", 8, "right", outlet="PHONES"),
        "kick": lives("jetty/D1", "helm/TRK 9", 9, "left", outlet="DRUMS"),
        "snare": lives("jetty/D2", "helm/TRK 10", 10, "right", outlet="DRUMS"),
        "clap": lives("jetty/D3", "helm/TRK 11", 11, outlet="CLAP"),
        "rim": lives("jetty/D4", "helm/TRK 12", 12, outlet="RIM"),
    }
    cables = [
        cable(MONO, "mole/MIX L", "helm/LINE 1"),
        cable(MONO, "mole/MIX R", "helm/LINE 2"),
        cable(STEREO, "mole/SEND", "helm/RETURN"),
        cable(MONO, "keel/L/MONO", "mole/LINE 1"),
        cable(MONO, "keel/R", "mole/LINE 2"),
        cable(MONO, "spar/L/MONO", "mole/LINE 3"),
        cable(MONO, "spar/R", "mole/LINE 4"),
        cable(MONO, "buoy/OUT", "mole/LINE 5"),
        cable(MONO, "gull/L/MONO", "helm/LINE 3"),
        cable("3.5 stereo > 2x 6.35 mono", "tern/PHONES", ("helm/LINE 5", "helm/LINE 6")),
        cable("6.35 stereo > 2x 6.35 mono", "jetty/DRUMS", ("helm/LINE 7", "helm/LINE 8")),
        cable(MONO, "jetty/CLAP", "helm/LINE 4"),
        cable(MONO, "jetty/RIM", "mole/LINE 6"),
        cable("din", "helm/MIDI OUT A", "keel/MIDI IN"),
        cable("din", "keel/MIDI THRU", "spar/MIDI IN"),
        cable("trs", "spar/MIDI THRU", "buoy/NOTES"),
        cable("din", "helm/MIDI OUT B", "weir/IN A"),
        cable("din", "oar/KEYS OUT", "weir/IN B"),
        cable("din", "weir/OUT", "gull/MIDI IN"),
        cable("din", "gull/MIDI THRU", "jetty/MIDI IN"),
        cable("usb", "helm/HOST", "tern/PORT"),
    ]
    clock = {"clock": ["keel", "jetty", "tern"]}
    return jam(boxes, list(parts), clock, title="Ten Boxes"), plan(parts, cables, title="Ten Boxes")
