"""``hardpan whatif --write``: the jam file gets the changes and keeps every other byte, or stays as it is."""

import json
import os
import shlex
import shutil
import tomllib
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

import solver
from solver.boxes import SHIPPED
from solver.cli import main
from solver.cli.saving import BOM, SaveError, rewrite
from tests.showing import SCENARIOS

CHANGES = """--drop-part bass --set part.pad.notes=3 --set 'cables = { "6.35 mono" = 4, din = 1 }'"""
NO_PLAN = """--add-intent 'avoid = { jacks = ["barge/R"] }'"""
EDITS = [
    (
        '[part.bass]\non    = "barge"                # any engine of barge ...\n'
        'sound = "synth"                # ... that is a synth\n\n',
        "",
    ),
    ("notes = 4 ", "notes = 3 "),
    ('layer = ["bass", "pad"]\nshift = { bass = -12 }', 'layer = ["pad"]\nshift = {}'),
    ('treat = ["bass", "pad"]', 'treat = ["pad"]'),
]
WRITTEN = """
jam.toml is changed:
  18 - [part.bass]
  19 - on    = "barge"                # any engine of barge ...
  20 - sound = "synth"                # ... that is a synth
  21 -
  25 - notes = 4                      # four notes that can start together
  21 + notes = 3                      # four notes that can start together
  32 - layer = ["bass", "pad"]
  33 - shift = { bass = -12 }
  28 + layer = ["pad"]
  29 + shift = {}
  37 - treat = ["bass", "pad"]
  33 + treat = ["pad"]
  46 +
  47 + [cables]
  48 + "6.35 mono" = 4
  49 + din = 1
"""
Run = Callable[[str], Result]


@pytest.fixture
def jam(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A jam file with its boxes, in the folder that commands are run in."""
    shutil.copytree(SCENARIOS / "boxes", tmp_path / "boxes")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("solver.cli.telling.QUIET", float("inf"))
    return Path(shutil.copy(SCENARIOS / "low-tide.toml", tmp_path / "jam.toml"))


def run(words: str) -> Result:
    """Run ``hardpan whatif``."""
    return CliRunner().invoke(main, ["whatif", *shlex.split(words)], prog_name="hardpan")


def by_hand(text: str) -> str:
    """The jam file with the changes, as a careful hand would make them."""
    for old, new in EDITS:
        assert text.count(old) == 1
        text = text.replace(old, new)
    return text + '\n[cables]\n"6.35 mono" = 4\ndin = 1\n'


def names(folder: Path) -> set[str]:
    """What is in a folder, hidden files too."""
    return {path.name for path in folder.iterdir()}


@pytest.mark.parametrize("mark", [b"", BOM], ids=["plain", "with a byte order mark"])
@pytest.mark.parametrize("end", ["\n", "\r\n"], ids=["lf", "crlf"])
def test_every_other_byte_stays(jam: Path, mark: bytes, end: str) -> None:
    text = jam.read_text("utf-8")
    jam.write_bytes(mark + text.replace("\n", end).encode())
    jam.chmod(0o640)
    done = run(f"jam.toml {CHANGES} --write")
    assert (done.exit_code, done.stderr) == (0, "")
    assert jam.read_bytes() == mark + by_hand(text).replace("\n", end).encode()
    assert jam.stat().st_mode & 0o777 == 0o640
    assert done.stdout.endswith(WRITTEN)
    assert names(jam.parent) == {"boxes", "jam.toml"}


def test_the_lines_are_in_the_document_too(jam: Path) -> None:
    found = json.loads(run(f"jam.toml {CHANGES} --write --json").stdout)
    assert found["written"] == WRITTEN.splitlines()[1:]
    assert jam.read_text("utf-8") == by_hand((SCENARIOS / "low-tide.toml").read_text("utf-8"))


def test_a_box_that_comes_with_hardpan_joins_by_its_name(jam: Path) -> None:
    done = run("jam.toml --add-box spare=headphone-end --write")
    assert (done.exit_code, done.stderr) == (
        0,
        "Note: spare is a box file that comes with hardpan. Make one of your own of it: "
        "hardpan box new --from headphone-end --name spare\n",
    )
    named = tomllib.loads(jam.read_text("utf-8"))["boxes"]["spare"]
    assert (jam.parent / named).samefile(SHIPPED / "headphone-end.toml")
    assert run("jam.toml --add-box more=headphone-end").stderr == ""


def test_without_the_option_or_a_change_the_file_stays(jam: Path) -> None:
    before = jam.read_bytes()
    assert run(f"jam.toml {CHANGES}").exit_code == 0
    done = run("jam.toml --set mains=stereo --drop-part nobody --write")
    assert done.exit_code == 2
    assert run("jam.toml --set tempo=118 --write").stdout.endswith("\njam.toml stays as it is.\n")
    assert jam.read_bytes() == before


def test_a_file_is_not_written_where_there_is_no_plan_after_the_change(jam: Path) -> None:
    before = jam.stat()
    done = run(f"jam.toml {NO_PLAN} --write")
    assert done.exit_code == 1
    assert done.stderr == "jam.toml stays as it is, for there is no plan after the change.\n"
    assert "jam.toml is changed" not in done.stdout
    found = run(f"jam.toml {NO_PLAN} --write --json")
    assert (found.exit_code, found.stderr, json.loads(found.stdout)["written"]) == (1, done.stderr, [])
    assert (jam.stat().st_ino, jam.stat().st_mtime_ns) == (before.st_ino, before.st_mtime_ns)


def _fail(error: BaseException) -> Callable[..., None]:
    def fail(*given: object, **named: object) -> None:
        raise error

    return fail


STOPPED = "Stopped before there was an answer. [X03]"


@pytest.mark.parametrize(
    ("what", "error", "said"),
    [
        ("pathlib.Path.replace", OSError(28, "No space left on device"), "not saved (No space left on device)"),
        ("os.fsync", OSError(5, "Input/output error"), "not saved (Input/output error)"),
        ("shutil.copymode", PermissionError(1, "Operation not permitted"), "not saved (Operation not permitted)"),
        ("pathlib.Path.replace", KeyboardInterrupt(), STOPPED),
        ("os.fsync", KeyboardInterrupt(), STOPPED),
    ],
    ids=["no room", "bad disk", "no right", "stopped late", "stopped early"],
)
def test_an_interrupted_write_loses_nothing(
    what: str, error: BaseException, said: str, jam: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    status = 3 if said == STOPPED else 2
    before = jam.read_bytes()
    monkeypatch.setattr(what, _fail(error))
    done = run(f"jam.toml {CHANGES} --write")
    assert (done.exit_code, done.stdout) == (status, "")
    assert said in done.stderr and "Traceback" not in done.stderr
    found = run(f"jam.toml {CHANGES} --write --json")
    assert json.loads(found.stdout)["problems"] == done.stderr.splitlines()
    assert jam.read_bytes() == before
    assert names(jam.parent) == {"boxes", "jam.toml"}


def test_a_file_that_was_changed_meanwhile_is_not_overwritten(jam: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    real = solver.what_if

    def slowly(*given: object, **named: object) -> object:
        jam.write_text("someone else's work", "utf-8")
        return real(*given, **named)  # type: ignore[call-overload]

    monkeypatch.setattr(solver, "what_if", slowly)
    done = run(f"jam.toml {CHANGES} --write")
    assert (done.exit_code, done.stdout) == (2, "")
    assert done.stderr == "jam.toml: not changed, for it is not what it was when it was read. Try again. [W03]\n"
    assert jam.read_text("utf-8") == "someone else's work"
    assert names(jam.parent) == {"boxes", "jam.toml"}


def test_a_file_that_is_gone_meanwhile_is_told(jam: Path) -> None:
    text = jam.read_text("utf-8")
    jam.unlink()
    with pytest.raises(SaveError, match=r"^jam\.toml: not changed \(No such file or directory\)\. \[W03\]$"):
        rewrite(Path("jam.toml"), text, "new")
    assert names(jam.parent) == {"boxes"}


@pytest.mark.parametrize("closed", ["jam.toml", "."])
def test_a_file_that_may_not_be_written_is_told_before_the_work(
    closed: str, jam: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before, real = jam.read_bytes(), os.access
    monkeypatch.setattr(os, "access", lambda path, mode: Path(path) != Path(closed).resolve() and real(path, mode))
    monkeypatch.setattr(solver, "what_if", _fail(AssertionError("no work")))
    said = "may not be written" if closed == "jam.toml" else "its folder cannot be written"
    done = run(f"jam.toml {CHANGES} --write")
    assert (done.exit_code, done.stdout) == (2, "")
    assert done.stderr == f"jam.toml: {said}. Allow that first, or leave out --write. [W03]\n"
    assert jam.read_bytes() == before


def test_a_file_for_reading_only_stays_as_it_is_whoever_asks(jam: Path) -> None:
    before = jam.read_bytes()
    jam.chmod(0o444)
    done = run(f"jam.toml {CHANGES} --write")
    assert (done.exit_code, done.stderr.partition(". ")[0]) == (2, "jam.toml: may not be written")
    assert (jam.read_bytes(), jam.stat().st_mode & 0o777) == (before, 0o444)
    assert run(f"jam.toml {CHANGES}").exit_code == 0


def test_a_link_to_a_jam_is_followed(jam: Path) -> None:
    Path("link.toml").symlink_to("jam.toml")
    done = run(f"link.toml {CHANGES} --write")
    assert done.exit_code == 0
    assert "\nlink.toml is changed:\n" in done.stdout
    assert Path("link.toml").is_symlink()
    assert jam.read_text("utf-8") == by_hand((SCENARIOS / "low-tide.toml").read_text("utf-8"))


def test_wishes_in_one_list_are_changed_in_it(jam: Path) -> None:
    head = jam.read_text("utf-8").partition("# One track")[0].replace(
        "[boxes]", 'intent = [{ layer = ["bass", "pad"] }, { clock = ["barge"] }]\n\n[boxes]'
    )  # fmt: skip
    jam.write_text(head, "utf-8")
    assert run("jam.toml --drop intent.2 --add-intent 'match = [\"arp\"]' --set intent.1.shift.bass=-12").exit_code == 0
    done = run("jam.toml --drop intent.2 --set intent.1.shift.bass=-12 --write")
    assert done.exit_code == 0
    assert jam.read_text("utf-8") == head.replace(
        '{ layer = ["bass", "pad"] }, { clock = ["barge"] }', '{ layer = ["bass", "pad"], shift = { bass = -12 } }'
    )
