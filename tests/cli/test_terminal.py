"""From an empty folder to a proved plan at a real terminal: two boxes and a jam, all by questions."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from solver.reading import read_box, read_jam
from tests.showing import ROOT

pexpect = pytest.importorskip("pexpect")
if not hasattr(pexpect, "spawn"):
    pytest.skip("there is no pseudo-terminal here", allow_module_level=True)

SEQUENCER: list[tuple[str, str]] = [
    ("How many line outs", ""),
    ("How many line ins", "1"),
    ("What is the line in made of?", "pair"),
    ("What is printed beside the left jack?", "IN 1"),
    ("What is printed beside the right jack?", "IN 2"),
    ("fader", "each"),
    ("Which effects can be set", "ducking, reverb"),
    ("How many sounds", "1"),
    ("What is it called?", "PAD"),
    ("Which MIDI channel does it listen to?", "none"),
    ("How many tracks", "3"),
    ("Which MIDI socket", "out"),
    ("Which other MIDI socket", ""),
]
MODULE: list[tuple[str, str]] = [
    ("How many sounds", "2"),
    ("Which MIDI socket", "in"),
    ("Which other MIDI socket", ""),
]
JAM: list[tuple[str, str]] = [
    ("Which box is on the table?", "gull"),
    ("Which other box?", "tern"),
    ("first part", "kick"),
    ("Where does kick live?", "gull/PAD"),
    ("next part", "bass"),
    ("Where does bass live?", "tern/1"),
    ("next part", "arp"),
    ("Where does arp live?", "tern/2"),
    ("Which parts want an effect", "bass"),
    ("How much of which effect", "ducking 60"),
    ("Which other parts want an effect?", "arp"),
    ("How much of which effect", "ducking 20"),
    ("follow the clock", "tern"),
]


def _env(home: Path) -> dict[str, str]:
    plain = {name: value for name, value in os.environ.items() if name not in ("HARDPAN_BOXES", "XDG_DATA_HOME")}
    return plain | {"PYTHONPATH": str(ROOT), "HOME": str(home), "TERM": "xterm"}


def talk(folder: Path, line: str, said: list[tuple[str, str]]) -> tuple[int, str]:
    """Answer the questions of a command at a terminal: those named, in their order, and all others with Enter.

    Returns:
        Its exit status, and all that stood on the screen.
    """
    words = ["-m", "solver", *line.split()]
    child = pexpect.spawn(sys.executable, words, cwd=str(folder), env=_env(folder), encoding="utf-8", timeout=60)
    child.delaybeforesend = None  # the questions wait for their answers
    left, screen = list(said), ""
    while child.expect([r"(?:\]|\n): $", pexpect.EOF]) == 0:
        question = child.before
        screen += question + child.after
        reply = ""
        if left and left[0][0] in question:
            reply = left.pop(0)[1]
        child.sendline(reply)
    child.close()
    assert left == [], screen
    return child.exitstatus, screen + child.before


def test_from_an_empty_folder_to_a_proved_plan(tmp_path: Path) -> None:
    for line, said in (("box new gull", SEQUENCER), ("box new tern", MODULE)):
        status, screen = talk(tmp_path, line, said)
        assert status == 0 and "Wrote " in screen and "doubt" not in screen, screen
    assert [strip.name for strip in read_box(tmp_path / "gull.toml").strips] == ["IN 1", "IN 2"]
    status, screen = talk(tmp_path, "new dusk", JAM)
    assert (status, list(read_jam(tmp_path / "dusk.toml").parts)) == (0, ["kick", "bass", "arp"]), screen
    shown = screen.partition("Wrote dusk.toml.")[2].replace("\r\n", "\n")
    assert "\n3 cables and 3 settings to move, both proved the fewest; 2 amounts to set.\n" in shown
    again = subprocess.run(
        [sys.executable, "-m", "solver", "plan", "dusk.toml"],
        cwd=tmp_path,
        env=_env(tmp_path),
        stdout=subprocess.PIPE,
        check=True,
        encoding="utf-8",
    )
    assert again.stdout.splitlines()[4:] == shown.lstrip("\n").splitlines()[4:]


def test_back_and_quit_at_a_terminal_leave_the_folder_empty(tmp_path: Path) -> None:
    status, screen = talk(tmp_path, "box new gull", [("few words", "back"), ("called", "Auk"), ("few words", "quit")])
    assert (status, list(tmp_path.iterdir())) == (3, []), screen
    assert "[Gull]" in screen and "Stopped: nothing is written." in screen
