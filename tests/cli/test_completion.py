"""The scripts for shells, and what they are answered."""

import shutil
import subprocess
from pathlib import Path

import pytest
from click.testing import CliRunner

from solver.cli import main
from solver.cli.completion import INSTALL
from solver.cli.shells import SHELLS, Bash
from tests.reading.table import lay

BASH = shutil.which("bash")


@pytest.mark.parametrize("shell", INSTALL)
def test_the_script_is_all_that_is_printed(shell: str) -> None:
    done = CliRunner().invoke(main, ["completion", shell])
    assert (done.exit_code, done.stderr) == (0, "")
    assert f"_HARDPAN_COMPLETE={shell}_complete" in done.stdout
    assert "_hardpan_completion" in done.stdout
    assert "2>/dev/null" in done.stdout
    assert "%(" not in done.stdout


def test_every_shell_has_its_way_to_be_installed() -> None:
    assert list(INSTALL) == list(SHELLS)
    assert all(f"hardpan completion {shell}" in "\n".join(lines) for shell, lines in INSTALL.items())


@pytest.mark.parametrize("shell", INSTALL)
def test_a_terminal_is_told_how_to_install_it(shell: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("solver.cli.completion.is_terminal", lambda: True)
    done = CliRunner().invoke(main, ["completion", shell])
    assert done.stderr == "\n" + "".join(f"{line}\n" for line in INSTALL[shell])


@pytest.mark.skipif(BASH is None, reason="there is no bash")
def test_the_script_is_good_bash() -> None:
    script = CliRunner().invoke(main, ["completion", "bash"]).stdout
    done = subprocess.run([str(BASH), "-n"], input=script.encode(), capture_output=True, check=False)
    assert (done.returncode, done.stderr) == (0, b"")


@pytest.mark.parametrize(
    ("line", "word", "answer"),
    [
        ("hardpan whatif low-tide.toml --drop 'ca", "'ca", 'plain,cables\nplain,cables."6.35 mono"\nplain,cables.din'),
        ('hardpan whatif low-tide.toml --drop cables.\\"', 'cables.\\"', 'plain,cables.\\"6.35\\ mono\\"'),
        ('hardpan whatif low-tide.toml --drop "cables.\\"', '"cables.\\"', 'plain,cables.\\"6.35 mono\\"'),
        ("hardpan whatif low-tide.toml --drop=intent.2.with.d", "intent.2.with.d", "plain,intent.2.with.ducking"),
        ("hardpan whatif low-tide.toml --drop-part=", "=", "plain,kick\nplain,bass\nplain,arp"),
        ("hardpan whatif low-tide.toml --add-box x=boxes/b", "boxes/b", "plain,boxes/barge.toml"),
        (
            "hardpan whatif low-tide.toml --add-box x=",
            "=",
            "plain,boxes/\nplain,low-tide.toml\nplain,barge\nplain,tiller",
        ),
        ("hardpan plan lo", "lo", "file,lo"),
        ("hardpan nonsense x", "x", ""),
    ],
)
def test_bash_gets_the_piece_it_asks_for(
    line: str, word: str, answer: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    lay(tmp_path)
    monkeypatch.setenv("HARDPAN_BOXES", "none")
    monkeypatch.setattr("solver.boxes.SHIPPED", tmp_path / "none")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COMP_WORDS", line)
    monkeypatch.setenv("COMP_WORD", word)
    assert Bash(main, {}, "hardpan", "_HARDPAN_COMPLETE").complete() == answer


@pytest.mark.parametrize("shell", ["zsh", "fish"])
def test_other_shells_get_the_whole_word(shell: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    lay(tmp_path)
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COMP_WORDS", "hardpan whatif low-tide.toml --drop-part=b")
    monkeypatch.setenv("COMP_CWORD", "3" if shell == "zsh" else "--drop-part=b")
    said = SHELLS[shell](main, {}, "hardpan", "_HARDPAN_COMPLETE").complete()
    assert said == {"zsh": "plain\n--drop-part=bass\n_", "fish": "plain,--drop-part=bass"}[shell]


@pytest.mark.parametrize("shell", SHELLS)
def test_a_shell_that_asks_wrongly_gets_nothing(shell: str, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("COMP_WORDS", "COMP_CWORD", "COMP_WORD"):
        monkeypatch.delenv(name, raising=False)
    assert SHELLS[shell](main, {}, "hardpan", "_HARDPAN_COMPLETE").complete() == ""
