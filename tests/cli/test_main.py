"""The command itself: help, version, words it does not know."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from solver.cli import COMMANDS, main
from solver.cli.exits import Exit

ROOT = Path(__file__).parents[2]


def python(*words: str, folder: Path = ROOT, **environment: str) -> subprocess.CompletedProcess[bytes]:
    """Run Python on its own, with the package to be found."""
    env = {**os.environ, "PYTHONPATH": str(ROOT), **environment}
    return subprocess.run([sys.executable, *words], capture_output=True, cwd=folder, env=env, check=False)


@pytest.mark.parametrize("word", ["--help", "--version", "-h"])
def test_help_and_version_load_nothing_heavy(word: str) -> None:
    script = (
        "import sys\nfrom solver.cli import main\n"
        f"main([{word!r}], standalone_mode=False)\n"
        "print(sorted({'ortools', 'pandas', 'numpy', 'pydantic', 'tabulate'} & set(sys.modules)), file=sys.stderr)"
    )
    done = python("-c", script)
    assert (done.returncode, done.stderr.decode().strip()) == (0, "[]")


def test_help_lists_every_command() -> None:
    done = CliRunner().invoke(main, ["--help"])
    assert done.exit_code == 0
    for name, line in COMMANDS.items():
        assert f"  {name}" in done.output
        assert line.split(",")[0].split(".")[0] in done.output


WITHOUT_AN_ANSWER = ("box", "completion")
"""A group, and a command whose answer is a script."""


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_has_help_and_json(name: str) -> None:
    done = CliRunner().invoke(main, [name, "--help"])
    assert done.exit_code == 0
    assert ("--json" in done.output) is (name not in WITHOUT_AN_ANSWER)
    assert done.output.startswith(f"Usage: hardpan {name} ")


def test_the_module_runs_as_the_command() -> None:
    done = python("-m", "solver", "--version")
    assert done.returncode == 0
    assert done.stdout.startswith(b"hardpan ")


@pytest.mark.parametrize(
    ("word", "said"),
    [
        ("plam", "There is no command 'plam'. Did you mean plan?"),
        ("chekc", "Did you mean check?"),
        (
            "zzz",
            "The commands are book, box, check, completion, explain, export, new, plan, trace, whatif.",
        ),
    ],
)
def test_an_unknown_command_names_the_nearest(word: str, said: str) -> None:
    done = CliRunner().invoke(main, [word])
    assert done.exit_code == 2
    assert said in done.stderr
    assert done.stdout == ""


@pytest.mark.parametrize(
    "words",
    [
        ["--zzz"],
        ["plan"],
        ["plan", "a.toml", "--zzz"],
        ["plan", "a.toml", "--alternatives", "-1"],
        ["plan", "a.toml", "--time-limit", "0"],
        ["plan", "a.toml", "--time-limit", "nan"],
        ["plan", "a.toml", "--time-limit", "inf"],
        ["check", "a.toml"],
    ],
)
def test_wrong_usage_exits_2_and_keeps_standard_output_empty(words: list[str]) -> None:
    done = CliRunner().invoke(main, words)
    assert (done.exit_code, done.stdout) == (2, "")
    assert "Error: " in done.stderr


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "utf-16"])
def test_json_is_utf_8_with_line_feeds_whatever_the_locale_is(encoding: str, tmp_path: Path) -> None:
    done = python("-m", "solver", "plan", "低 tide ü.toml", "--json", folder=tmp_path, PYTHONIOENCODING=encoding)
    assert done.returncode == 2
    assert b"\r" not in done.stdout and done.stdout.endswith(b"}\n")
    data = json.loads(done.stdout.decode("utf-8"))
    assert data["status"] == "bad input"
    assert "低 tide ü.toml" in " ".join(data["problems"])


def test_a_stop_before_the_answer_is_not_decided(monkeypatch: pytest.MonkeyPatch) -> None:
    def stop(name: str) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("solver.cli.lazy.import_module", stop)
    result = CliRunner().invoke(main, ["plan", "low-tide.toml"])
    assert result.exit_code == Exit.UNDECIDED
    assert result.stderr == "Stopped before there was an answer. [X03]\n"
