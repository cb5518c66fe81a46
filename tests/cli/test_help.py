"""Help that ends with a real example, hints for mistyped words, and plain output on every kind of terminal."""

import os
import shlex
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from solver.cli import main
from tests.cli.commands import EXAMPLES, KNOWN, Known
from tests.showing import ROOT, commands_in

RUN = """
import shlex, sys
from solver.cli import main
for line in sys.argv[1:]:
    try:
        main(shlex.split(line), prog_name="hardpan")
    except SystemExit as end:
        print("ended with", end.code)
"""


@pytest.mark.parametrize("known", KNOWN, ids=lambda known: known.line)
def test_help_ends_with_an_example_of_its_own(known: Known) -> None:
    line, _ = known.example
    assert shlex.split(line)[: len(known.words)] == list(known.words)
    assert len(line) < 78, "it would be broken in a narrow terminal"
    shown = CliRunner().invoke(main, [*known.words[1:], "--help"], terminal_width=40).output
    assert f"  {line}\n" in shown


def test_no_help_loads_the_solver() -> None:
    lines = [" ".join((*known.words[1:], "--help")) for known in KNOWN]
    script = f"{RUN}\nprint(sorted({{'ortools', 'pandas', 'numpy'}} & set(sys.modules)), file=sys.stderr)"
    env = {**os.environ, "PYTHONPATH": str(ROOT)}
    done = subprocess.run([sys.executable, "-c", script, *lines], env=env, capture_output=True, check=True)
    assert done.stdout.count(b"ended with 0") == len(lines)
    assert done.stderr == b"[]\n"


@pytest.mark.parametrize(("line", "status"), EXAMPLES)
def test_examples_do_what_is_told(line: str, status: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    found, said = commands_in(tmp_path, monkeypatch)(line)
    assert (found, bool(said)) == (status, True)


@pytest.mark.parametrize(
    ("line", "hint"),
    [
        ("plan low-tide.toml --alternativs 2", "--alternatives"),
        ("whatif low-tide.toml --rmove-box barge", "--remove-box"),
        ("explain low-tide.toml --why_not x", "--why-not"),
        ("box schema jma", "Did you mean jam?"),
        ("box schema BOX", "Did you mean box?"),
        ("completion bsh", "Did you mean bash?"),
        ("box shema", "Did you mean schema?"),
        ("box schema zzz", "'zzz' is none of the words box, jam, set.\n"),
    ],
)
def test_mistyped_words_name_the_nearest(line: str, hint: str) -> None:
    done = CliRunner().invoke(main, line.split())
    assert (done.exit_code, done.stdout) == (2, "")
    assert hint in done.stderr


LINES = [
    *(line.removeprefix("hardpan ") for line, _ in EXAMPLES),
    *(" ".join((*known.words[1:], "--help")) for known in KNOWN),
    "--version",
    "plam",
    "plan scenarios/low-tide.toml --alternativs",
    "plan scenarios/none.toml",
    "plan scenarios/boxes/barge.toml",
    "plan 'a\x1b[31mb.toml'",
    "pl\x1b[31man",
]


def answers(where: str, folder: Path) -> bytes:
    """All that the lines say on both outputs, on a terminal or into a pipe, where colour is asked for.

    They run in a folder with a copy of the scenarios, for some of them write files.
    """
    for name in ("scenarios", "docs"):
        shutil.copytree(ROOT / name, folder / name)
    asked = {"TERM": "xterm-256color", "FORCE_COLOR": "1", "CLICOLOR_FORCE": "1"}
    env = {**os.environ, "PYTHONPATH": str(ROOT), **asked}
    words = [sys.executable, "-c", RUN, *LINES]
    if where == "pipe":
        return subprocess.run(words, cwd=folder, env=env, stdout=-1, stderr=subprocess.STDOUT, check=True).stdout
    pty = pytest.importorskip("pty")
    above, below = pty.openpty()
    running = subprocess.Popen(words, cwd=folder, env=env, stdin=below, stdout=below, stderr=below)
    os.close(below)
    said = bytearray()
    try:
        while piece := os.read(above, 65536):
            said += piece
    except OSError:  # how Linux says that nobody holds the other end any more
        pass
    finally:
        os.close(above)
    assert running.wait() == 0
    return bytes(said)


@pytest.mark.parametrize("where", ["pipe", "terminal"])
def test_no_answer_has_an_escape_byte(where: str, tmp_path: Path) -> None:
    said = answers(where, tmp_path)
    assert said.count(b"ended with") == len(LINES)
    assert b"\x1b" not in said
