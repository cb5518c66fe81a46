"""A small good table for the reading tests: two boxes and a jam, and ways to break them."""

from pathlib import Path

TILLER = """\
name = "Tiller"
about = "sequencer with two pads and a mixer"
name_length = 12
voices = 16

[[out]]
name = "MAIN"
left = "L"
right = "R"
alone = "sum"

[[out]]
name = "PHONES"
stereo = "PHONES"
plug = "3.5"
mirrors = "MAIN"

[[in]]
name = "LINE"
left = "IN 1"
right = "IN 2"

[[strip]]
name = "IN 1"
from = "LINE/left"
to = ["MAIN"]
offers = ["ducking", "reverb"]
key = ["PAD 1", "PAD 2"]
track = "EXT 1"
stored = { reverb = "box" }

[[engine]]
name = "PAD 1"
sound = "drum"
channels = "1-10"
channel = 10
can_be_off = true

[[engine]]
name = "PAD 2"
channels = [2, 3]

[[track]]
name = "EXT 1"
channel = 5
plays = "PAD 2"

[[track]]
name = "TRK 1"
plays = "PAD 1"

[[midi]]
name = "MIDI OUT"
way = "out"
repeats = "MIDI IN"
clock = true

[[midi]]
name = "MIDI IN"
way = "in"

[[midi]]
name = "MIDI THRU"
way = "thru"
copies = "MIDI IN"
"""

BARGE = """\
name = "Barge"

[[out]]
name = "MAIN"
left = "L/MONO"
right = "R"

[[engine]]
name = "1"
sound = "synth"
channel = 3
shift = 24

[[midi]]
name = "MIDI IN"
way = "in"
"""

JAM = """\
title = "Low Tide"
tempo = 118
leader = "tiller"
listen = "tiller/MAIN"
mains = "stereo"

[boxes]
tiller = "boxes/tiller.toml"
barge = "boxes/barge.toml"

[cables]
"6.35 mono" = 4
din = 1

[part.kick]
on = "tiller/PAD 1"

[part.bass]
on = "barge"
sound = "synth"

[part.arp]
notes = 2

[[intent]]
layer = ["bass", "arp"]
shift = { bass = -12 }

[[intent]]
treat = ["bass"]
with = { ducking = 30, reverb = 20 }
key = "kick"
at = "tiller"

[[intent]]
play = ["bass"]
from = "tiller/EXT 1"

[[intent]]
avoid = { channels = [16], jacks = ["barge/R"], ports = [] }

[[intent]]
keep = { cable = [
    "barge/L/MONO",
    "tiller/IN 1",
] }

[[intent]]
keep = { part = "arp", engine = "barge/1" }

[[intent]]
separate = ["arp", "bass"]

[[intent]]
clock = ["barge"]

[recall]
tiller = "bank B, slot 3"
"""

FILES = {"low-tide.toml": JAM, "boxes/tiller.toml": TILLER, "boxes/barge.toml": BARGE}
SHORT = {"jam": "low-tide.toml", "tiller": "boxes/tiller.toml", "barge": "boxes/barge.toml"}

Edit = tuple[str, str, str]
"""A file by its short name, a text that stands in it, and what is to stand there."""


def lay(folder: Path, *edits: Edit) -> Path:
    """Write the good files with these edits; the path of the jam file."""
    files = dict(FILES)
    for short, old, new in edits:
        name = SHORT[short]
        assert old in files[name], f"{old!r} is not in {name}"
        files[name] = files[name].replace(old, new, 1)
    (folder / "boxes").mkdir(exist_ok=True)
    for name, text in files.items():
        (folder / name).write_text(text, encoding="utf-8")
    return folder / "low-tide.toml"
