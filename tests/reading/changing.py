"""A jam to be changed, and how tests ask for changes of it."""

from pathlib import Path

import pytest

from solver.reading import BadInput, read_changed
from solver.reading.asked import Request
from solver.reading.changed import Changed

JAM = """\
title = "Full"
tempo = 100
leader = "tiller"
listen = "tiller/MAIN"
[boxes]
tiller = "boxes/tiller.toml"
barge = "boxes/barge.toml"
[cables]
"6.35 mono" = 9
din = 3
[recall]
tiller = "bank A"
[part.kick]
on = "tiller/PAD 1"
[part."my bass"]
on = "barge"
sound = "synth"
[part.arp]
[[intent]]
layer = ["my bass", "arp"]
shift = { "my bass" = -12 }
[[intent]]
treat = ["arp"]
with = { ducking = 20, reverb = 10 }
key = "kick"
at = "tiller"
[[intent]]
avoid = { channels = [10], jacks = ["barge/R"] }
[[intent]]
keep = { part = "arp", pan = "left" }
"""


def ask(*words: str, file: str = "jam.toml") -> Changed:
    """The jam with changes; each is an option and its value with a blank between."""
    return read_changed(file, [Request(*word.split(" ", 1)) for word in words])


def refused(*words: str, file: str = "jam.toml") -> list[str]:
    """What is said of changes that cannot be."""
    before = Path(file).read_bytes()
    with pytest.raises(BadInput) as caught:
        ask(*words, file=file)
    assert Path(file).read_bytes() == before
    return [str(problem) for problem in caught.value.problems]


def in_file(text: str) -> str:
    """Changes in a file in a folder of its own."""
    Path("asked").mkdir(exist_ok=True)
    Path("asked/changes.toml").write_text(text, encoding="utf-8")
    return "--from asked/changes.toml"
