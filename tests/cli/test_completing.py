"""What is offered while a command line is typed."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from click.shell_completion import CompletionItem, ShellComplete
from hypothesis import given, settings
from hypothesis import strategies as st

from solver.boxes import YOURS
from solver.cli import COMMANDS, main
from solver.cli.shells import SHELLS
from solver.gear.cables import KINDS
from solver.reading import read_changed
from solver.reading.asked import Request
from tests.reading.table import lay
from tests.showing import ROOT


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with a jam, where the line is typed."""
    lay(tmp_path)
    (tmp_path / "boxes" / "reef.toml").write_text('name = "Reef"', "utf-8")
    (tmp_path / "boxes" / "notes.txt").write_text("no box", "utf-8")
    for name in ("shipped", "own"):
        (tmp_path / name).mkdir()
        (tmp_path / name / f"{name}-box.toml").write_text('name = "X"', "utf-8")
    monkeypatch.setattr("solver.boxes.SHIPPED", tmp_path / "shipped")
    monkeypatch.setenv(YOURS, str(tmp_path / "own"))
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("COMP_WORDS", raising=False)
    monkeypatch.delenv("COMP_WHOLE", raising=False)
    return tmp_path


def items(line: str) -> list[CompletionItem[str]]:
    """What is offered for the last word of a line, which may be empty."""
    *words, incomplete = line.split(" ")
    return ShellComplete(main, {}, "hardpan", "_HARDPAN_COMPLETE").get_completions(words, incomplete)


def offered(line: str) -> list[str]:
    return [item.value for item in items(line)]


def test_commands_and_options() -> None:
    assert offered("") == list(COMMANDS)
    assert [item.help for item in items("")] == list(COMMANDS.values())
    assert offered("pl") == ["plan"]
    assert offered("box ") == ["check", "list", "new", "schema", "show"]
    assert offered("box schema ") == ["box", "jam", "set"]
    assert offered("completion z") == ["zsh"]
    assert offered("plan low-tide.toml --al") == ["--alternatives"]
    assert offered("--ver") == ["--version"]
    assert "--remove-box" in offered("whatif --")


@pytest.mark.parametrize(
    "line",
    [
        "plan ",
        "plan low",
        "check low-tide.toml ",
        "explain ",
        "whatif ",
        "plan --out ",
        "whatif x --from ",
        "whatif x --out ",
    ],
)
def test_files_are_the_shell_s_own_business(line: str) -> None:
    assert [item.type for item in items(line)] == ["file"]


@pytest.mark.parametrize(
    ("option", "begun", "expected"),
    [
        ("--drop-part", "", ["kick", "bass", "arp"]),
        ("--drop-part", "ba", ["bass"]),
        ("--remove-box", "", ["barge"]),
        ("--drop", "part.", [
            "part.kick", "part.kick.on", "part.bass", "part.bass.on", "part.bass.sound", "part.arp", "part.arp.notes",
        ]),
        ("--drop", "intent.2", ["intent.2", "intent.2.with.ducking", "intent.2.with.reverb"]),
        ("--drop", "c", ["cables", 'cables."6.35 mono"', "cables.din"]),
        ("--drop", "m", ["mains"]),
        ("--drop", "t", []),
        ("--drop", "boxes", ["boxes.barge"]),
        ("--drop", "recall", ["recall.tiller"]),
        ("--set", "t", ["title=", "tempo="]),
        ("--set", "intent.2.with.d", ["intent.2.with.ducking="]),
        ("--set", "intent.2.with.ducking=", []),
        ("--set", "boxes", []),
        ("--drawer", "", [f"{kind}=" for kind in KINDS]),
        ("--drawer", "tr", ["trs="]),
        ("--add-box", "", ["reef=boxes/reef.toml", "own-box=own-box", "shipped-box=shipped-box"]),
        ("--add-box", "x=bo", ["x=boxes/"]),
        ("--add-box", "x=s", ["x=shipped/", "x=shipped-box"]),
        ("--add-box", "x=ree", ["x=reef"]),
        ("--add-box", "x=boxes/r", ["x=boxes/reef.toml"]),
        ("--add-box", "x=none/", []),
        ("--add-part", "", []),
        ("--add-intent", "", []),
    ],
)  # fmt: skip
def test_values_of_options(option: str, begun: str, expected: list[str]) -> None:
    assert offered(f"whatif low-tide.toml {option} {begun}") == expected
    assert offered(f"whatif low-tide.toml {option}={begun}") == expected


@pytest.mark.parametrize("line", ["box show ", "box check ", "box check barge ", "box new --from "])
def test_box_files_by_path_or_name(line: str) -> None:
    assert offered(f"{line}bo") == ["boxes/"]
    assert offered(f"{line}boxes/r") == ["boxes/reef.toml"]
    assert offered(f"{line}") == [
        "boxes/", "low-tide.toml", "own/", "shipped/", "barge", "reef", "tiller", "own-box", "shipped-box",
    ]  # fmt: skip


def test_boxes_of_a_new_jam() -> None:
    assert offered("new mine.toml --box ") == [
        "barge=boxes/barge.toml", "reef=boxes/reef.toml", "tiller=boxes/tiller.toml",
        "own-box=own-box", "shipped-box=shipped-box",
    ]  # fmt: skip
    assert offered("new mine.toml --box a=ow") == ["a=own/", "a=own-box"]


def test_boxes_and_slots_of_the_jams_in_a_folder(folder: Path) -> None:
    (folder / "old").mkdir()
    (folder / "old" / "a.toml").write_text('[boxes]\nreef = "r.toml"\n[recall]\nreef = "bank B, 2"\n', "utf-8")
    (folder / "old" / "b.toml").write_text("[recall", "utf-8")
    assert offered("book --box ") == ["barge", "reef", "tiller"]
    assert offered("book old --box ") == ["reef"]
    assert offered("book old --slot ") == ["bank B, 2"]
    assert offered("book none --box ") == []
    assert [item.type for item in items("book ")] == ["dir"]


def test_every_statement_that_is_offered_can_be_dropped() -> None:
    statements = offered("whatif low-tide.toml --drop ")
    assert len(statements) > 20
    for statement in statements:
        assert read_changed("low-tide.toml", [Request("--drop", statement)])


def test_the_jam_may_stand_behind_the_cursor(monkeypatch: pytest.MonkeyPatch) -> None:
    assert offered("whatif --drop-part ") == []
    monkeypatch.setenv("COMP_WHOLE", "hardpan whatif --drop-part  low-tide.toml")
    assert offered("whatif --drop-part ") == ["kick", "bass", "arp"]


def test_an_unfinished_jam_offers_what_it_has(folder: Path) -> None:
    (folder / "new.toml").write_text("[part.hats]\n[boxes]\nreef = 3\n[[intent]]\n", "utf-8")
    assert offered("whatif new.toml --drop-part ") == ["hats"]
    assert offered("whatif new.toml --remove-box ") == ["reef"]


@pytest.mark.parametrize(
    "text", ["title = ", "part = 3\nboxes = 4\nintent = 5\nleader = []", "[[part]]\n[[boxes]]", "\0", ""]
)
def test_a_broken_jam_offers_nothing(text: str, folder: Path) -> None:
    (folder / "bad.toml").write_text(text, "utf-8")
    for option in ("--drop-part", "--remove-box"):
        assert offered(f"whatif bad.toml {option} ") == []


SCRIPT = """
import os, sys
from solver.cli import main
from solver.cli.shells import register
register()
try:
    main(prog_name="hardpan")
finally:
    print(sorted({"ortools", "pandas", "numpy", "tabulate"} & set(sys.modules)), file=sys.stderr)
"""


@pytest.mark.parametrize(
    "line",
    [
        "hardpan whatif low-tide.toml --drop part.b",
        "hardpan explain low-tide.toml --re",
        "hardpan book --box b",
        "hardpan ",
    ],
)
def test_completion_loads_nothing_heavy(line: str, folder: Path) -> None:
    asked = {"_HARDPAN_COMPLETE": "bash_complete", "COMP_WORDS": line, "COMP_WORD": line.rsplit(" ", maxsplit=1)[-1]}
    env = {"PYTHONPATH": str(ROOT), **asked}
    done = subprocess.run([sys.executable, "-c", SCRIPT], cwd=folder, env=env, capture_output=True, check=False)
    assert (done.returncode, done.stderr) == (0, b"[]\n")
    assert done.stdout.startswith(b"plain,")


WORDS = st.sampled_from([
    "hardpan", "whatif", "plan", "box", "low-tide.toml", "boxes", "--drop", "--drop=", "--set", "--add-box", "x=", "=",
    "--", "-", "'", '"', "\\", "--nonsense", "--time-limit", "nan", "\0", "\n", "~", "~nobody/x=", "ü", "$(x)", "*",
    "/dev/zero",
])  # fmt: skip
PLACES = st.sampled_from(["0", "1", "3", "-1", "x"])


@settings(max_examples=150, deadline=None, derandomize=True)
@given(st.lists(WORDS | st.text(max_size=5), max_size=6), st.sampled_from(sorted(SHELLS)), PLACES)
def test_no_line_makes_it_complain(words: list[str], shell: str, place: str) -> None:
    line = " ".join(words).encode("utf-8", "replace").decode().replace("\0", "")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("COMP_WORDS", line)
        patch.setenv("COMP_WORD", words[-1].replace("\0", "").encode("utf-8", "replace").decode() if words else "")
        patch.setenv("COMP_CWORD", place)
        said = SHELLS[shell](main, {}, "hardpan", "_HARDPAN_COMPLETE").complete()
    assert "Error" not in said and "Traceback" not in said
