"""Lines completed in a real bash, zsh and fish."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.reading.table import lay
from tests.showing import ROOT

TYPED = {
    "wha\tlow-t\t--drop-p\tba\t": ("whatif", "low-tide.toml", "--drop-part", "bass"),
    "whatif low-tide.toml --set intent.2.with.du\t40": ("whatif", "low-tide.toml", "--set", "intent.2.with.ducking=40"),
    'whatif low-tide.toml --drop cables.\\"\t': ("whatif", "low-tide.toml", "--drop", 'cables."6.35 mono"'),
}
"""Keys with tabs in them, and the words that they come to."""

STARTED = {
    "bash": (["--norc", "--noprofile", "-i"], "stty cols 500; source <(hardpan completion bash)"),
    "zsh": (["-f", "-i"], "autoload -Uz compinit && compinit -u -d dump; source <(hardpan completion zsh)"),
}


def _found(shell: str) -> str:
    program = shutil.which(shell)
    if program is None:
        assert "HARDPAN_NEEDS_SHELLS" not in os.environ, f"there is no {shell}"
        pytest.skip(f"there is no {shell}")
    return program


@pytest.fixture
def env(tmp_path: Path) -> dict[str, str]:
    """What a shell finds: a folder with a jam, and hardpan on its path."""
    lay(tmp_path)
    program = tmp_path / "bin" / "hardpan"
    program.parent.mkdir()
    program.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m solver "$@"\n', "utf-8")
    program.chmod(0o755)
    path = f"{program.parent}{os.pathsep}{os.environ['PATH']}"
    return {"PATH": path, "PYTHONPATH": str(ROOT), "TERM": "dumb", "PS1": "$ ", "HOME": str(tmp_path)}


@pytest.mark.parametrize("shell", STARTED)
def test_keys_and_tabs_at_a_terminal(shell: str, tmp_path: Path, env: dict[str, str]) -> None:
    pexpect = pytest.importorskip("pexpect")
    words, setting_up = STARTED[shell]
    child = pexpect.spawn(
        _found(shell), words, cwd=str(tmp_path), env=env, encoding="utf-8", timeout=60, dimensions=(50, 400)
    )
    child.sendline(f"{setting_up}; echo rea''dy")
    child.expect("ready\r\n")
    for typed, completed in TYPED.items():
        child.send(f"hardpan {typed}\x01printf '<%s>' \x05; echo en''d\n")
        child.expect("end\r\n")
        assert "".join(f"<{word}>" for word in ("hardpan", *completed)) in child.before
    child.close(force=True)


@pytest.mark.parametrize(
    ("line", "offered"),
    [
        ("hardpan wha", ["whatif"]),
        ("hardpan plan lo", ["low-tide.toml"]),
        ("hardpan whatif low-tide.toml --drop-part=", [f"--drop-part={part}" for part in ("arp", "bass", "kick")]),
        ("hardpan whatif low-tide.toml --drop cables.", ['cables."6.35 mono"', "cables.din"]),
    ],
)
def test_what_fish_offers(line: str, offered: list[str], tmp_path: Path, env: dict[str, str]) -> None:
    asked = f"hardpan completion fish | source; complete -C '{line}'"
    done = subprocess.run([_found("fish"), "-c", asked], cwd=tmp_path, env=env, stdout=subprocess.PIPE, check=True)
    assert [said.partition("\t")[0] for said in done.stdout.decode("utf-8").splitlines()] == offered
