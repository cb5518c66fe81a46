"""Nothing that only some systems have: modules, calls, encodings of the locale, and folders without spaces."""

import ast
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.showing import ROOT, SCENARIOS

SOURCES = sorted((ROOT / "solver").rglob("*.py"))
ELSEWHERE = frozenset(
    [
        "curses",
        "fcntl",
        "grp",
        "nis",
        "posix",
        "pty",
        "pwd",
        "readline",
        "resource",
        "spwd",
        "syslog",
        "termios",
        "tty",
        "winreg",
        "msvcrt",
    ]
)
"""Modules of the standard library that not every system has (Python's documentation, "Availability")."""
CALLS = frozenset(
    [
        "chown",
        "fork",
        "forkpty",
        "geteuid",
        "getgid",
        "getuid",
        "getpgid",
        "killpg",
        "mkfifo",
        "setsid",
        "umask",
        "uname",
        "alarm",
        "setitimer",
    ]
)
"""Functions of ``os`` and ``signal`` that not every system has."""


def _named(tree: ast.AST) -> Iterator[str]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name.partition(".")[0] for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield (node.module or "").partition(".")[0]
        elif isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id in ("os", "signal"):
            yield node.attr


@pytest.mark.parametrize(
    ("source", "found"), [("import pwd", {"pwd"}), ("os.fork()", {"fork"}), ("from tty import x", {"tty"})]
)
def test_what_only_some_systems_have_is_seen(source: str, found: set[str]) -> None:
    assert set(_named(ast.parse(source))) & (ELSEWHERE | CALLS) == found


def test_no_file_asks_for_what_only_some_systems_have() -> None:
    used = {path.name: set(_named(ast.parse(path.read_text("utf-8")))) & (ELSEWHERE | CALLS) for path in SOURCES}
    assert {name: found for name, found in used.items() if found} == {}


@pytest.mark.parametrize("encoding", ["ascii", "cp1252"])
def test_folders_with_spaces_and_a_locale_that_is_not_utf_8(tmp_path: Path, encoding: str) -> None:
    folder = tmp_path / "zwei Gäste, 2 boxes"
    shutil.copytree(SCENARIOS / "boxes", folder / "boxes")
    text = (SCENARIOS / "low-tide.toml").read_text("utf-8").replace('"Low Tide"', '"Low Tide 🎹 é"')
    (folder / "low tide é.toml").write_text(text, "utf-8")
    env = {name: value for name, value in os.environ.items() if name != "PYTHONUTF8"}
    env |= {"PYTHONPATH": str(ROOT), "PYTHONIOENCODING": f"{encoding}:replace", "PYTHONUTF8": "0", "LC_ALL": "C"}

    def run(*words: str) -> str:
        words = (sys.executable, "-m", "solver", *words)
        return subprocess.run(words, cwd=folder, env=env, stdout=subprocess.PIPE, check=True).stdout.decode("utf-8")

    assert run("plan", "low tide é.toml", "--out", "p lan.json").startswith("Low Tide 🎹 é\n=============\n3 cables ")
    assert run("check", "low tide é.toml", "p lan.json") == "All is well: the plan keeps every rule.\n"
    assert "🎹" in run("whatif", "low tide é.toml", "--drop-part", "arp")
    assert run("export", "p lan.json", "--to", "the page.html") == "Written: the page.html\n"
    assert "Low Tide 🎹 é" in (folder / "the page.html").read_text("utf-8")
