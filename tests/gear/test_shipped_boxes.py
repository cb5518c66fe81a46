"""The box files that come with hardpan: nothing is wrong or doubtful in them, and jams can be made of them alone."""

import tomllib
from pathlib import Path
from typing import NamedTuple

import pytest

import solver
from solver.boxes import SHIPPED
from solver.outcome import Planned
from solver.reading import read_jam
from solver.reading.box_checks import look_over
from tests.showing import ROOT

FILES = sorted(SHIPPED.glob("*.toml"))
LEADERS = ("audio-interface", "drum-box", "sampler")


class Small(NamedTuple):
    """A small jam of shipped boxes: who leads, where the ears are, what else is there, and the cables it takes."""

    leader: str
    listen: str
    others: dict[str, str]
    wishes: str
    cables: int


JAMS = {
    # One cable for the sound, one for the notes.
    "a synth beside a sampler": Small(
        "sampler",
        "sampler/MAIN",
        {"synth": "one-voice-synth"},
        """
        part.kick.on = "sampler/PAD 1"
        part.bass.on = "synth"
        intent = [{ treat = ["bass"], with = { ducking = 50, reverb = 10 }, key = "kick" }]
        """,
        2,
    ),
    # A strip for each part takes both sides of the module, and a cable for each.
    "a module split over two strips": Small(
        "sampler",
        "sampler/MAIN",
        {"module": "four-engine-module"},
        """
        part.bass.on = "module"
        part.arp.on = "module"
        intent = [{ separate = ["bass", "arp"] }, { clock = ["module"] }]
        """,
        3,
    ),
    # Neither synth has a thru, so the notes go over the thru box: three cables, and one for each sound.
    "two synths behind a thru box": Small(
        "drum-box",
        "desk/MAIN",
        {"desk": "desk-4", "split": "thru-1-to-4", "low synth": "one-voice-synth", "high synth": "one-voice-synth"},
        """
        part.tick.on = "drum-box/LOW"
        part.bass.on = "low synth"
        part.lead.on = "high synth"
        intent = [{ separate = ["tick", "bass", "lead"], at = "desk" }]
        """,
        6,
    ),
    # The large headphone jack of the interface feeds the pair at the headphone end over one breakout.
    "a song that leads, heard at the headphone end": Small(
        "audio-interface",
        "ears/HEADPHONES 1",
        {"ears": "headphone-end", "synth": "one-voice-synth", "drums": "drum-box"},
        """
        part.lead.on = "synth"
        part.hit.on = "drums/HIGH"
        intent = [{ play = ["hit"], from = "drums" }, { treat = ["lead"], with = { delay = 40 } }]
        """,
        4,
    ),
    # A stereo part takes two cables, the sampler one, the notes one.
    "a wide pad on the large desk": Small(
        "sampler",
        "desk/MAIN",
        {"desk": "desk-16", "module": "four-engine-module"},
        """
        part.clap.on = "sampler/PAD 5"
        part.pad.on = "module"
        intent = [{ stereo = ["pad"] }, { treat = ["pad"], with = { reverb = 25 }, at = "desk" }]
        """,
        4,
    ),
    # Two players reach one module over the merger: three cables, and one for the sound.
    "two players over a merger": Small(
        "sampler",
        "desk/MAIN",
        {"desk": "desk-8", "join": "merger-2-to-1", "drums": "drum-box", "module": "four-engine-module"},
        """
        part.bass.on = "module/SOUND 1"
        part.bell.on = "module/SOUND 2"
        intent = [{ play = ["bell"], from = "drums" }]
        """,
        4,
    ),
}


def lay(folder: Path, small: Small) -> Path:
    boxes = {small.leader: small.leader, **small.others}
    table = ", ".join(f'"{name}" = "{(SHIPPED / kind).as_posix()}.toml"' for name, kind in boxes.items())
    text = f'title = "T"\nleader = "{small.leader}"\nlisten = "{small.listen}"\nboxes = {{ {table} }}\n{small.wishes}'
    file = folder / "jam.toml"
    file.write_text(text, "utf-8")
    return file


@pytest.mark.parametrize("small", JAMS.values(), ids=JAMS)
def test_small_jams_of_shipped_boxes_are_planned(small: Small, tmp_path: Path) -> None:
    jam = read_jam(lay(tmp_path, small))
    outcome = solver.plan(jam, time_limit=None)
    assert isinstance(outcome, Planned)
    assert solver.check(jam, outcome.best) == ()
    assert len(outcome.best.cables) == small.cables


def test_the_jams_use_every_shipped_box() -> None:
    used = {kind for small in JAMS.values() for kind in (small.leader, *small.others.values())}
    assert used == {file.stem for file in FILES}


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_nothing_is_wrong_or_doubtful_and_it_says_what_it_is(file: Path) -> None:
    looked = look_over(file)
    assert (looked.problems, looked.doubts) == ((), ())
    assert looked.box is not None
    assert looked.box.about
    comments = [line for line in file.read_text("utf-8").splitlines() if line.startswith("#")]
    assert "change what differs" in " ".join(comments)


@pytest.mark.parametrize("kind", LEADERS)
def test_a_leader_has_all_that_leading_takes(kind: str) -> None:
    box = look_over(SHIPPED / f"{kind}.toml").box
    assert box is not None
    assert any(track.channels and track.plays is None for track in box.tracks)
    assert any(port.way == "out" and port.clock for port in box.ports)
    assert box.outlets[0].paired


def test_they_are_packed_with_hardpan() -> None:
    packed = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]["setuptools"]["package-data"]["solver"]
    assert f"{SHIPPED.name}/*.toml" in packed
    assert SHIPPED.parent == ROOT / "solver"
