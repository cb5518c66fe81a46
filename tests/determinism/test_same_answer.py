"""Same files, same bytes out, whatever the seed of Python's hashes; and nothing heavy is loaded before it is needed."""

import os
import subprocess
import sys

from tests.showing import ROOT, SCENARIOS

NAMES = ("low-tide", "tide-tables", "second-watch")
ANSWER = """
import dataclasses, json, sys
import solver
from solver.reading import read_jam
from solver.sheet.formats import FORMATS
from solver.sheet.text import plan_text

for file in sys.argv[1:]:
    jam = read_jam(file)
    planned = dataclasses.replace(solver.plan(jam, alternatives=1, time_limit=None), seconds=0.5)
    print(json.dumps([plan.to_json() for plan in planned.plans], indent=1))
    print(plan_text(jam, planned, 80))
    for ending, kind in FORMATS.items():
        print(ending, repr(kind.made(jam, planned.best)))
"""
HEAVY = ("ortools", "pandas", "numpy")
LIGHT = f"""
import sys
import solver
assert not set({HEAVY!r}) & set(sys.modules), "import solver"
from solver.cli import main
try:
    main(["--help"], prog_name="hardpan")
except SystemExit as end:
    assert end.code == 0
assert not set({HEAVY!r}) & set(sys.modules), "hardpan --help"
"""


def run(script: str, *words: str, seed: str = "0") -> str:
    """Run a script in a Python of its own and give back what it writes."""
    env = os.environ | {"PYTHONHASHSEED": seed, "PYTHONPATH": str(ROOT)}
    done = subprocess.run(
        [sys.executable, "-c", script, *words], cwd=ROOT, env=env, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_two_runs_answer_alike_to_the_byte() -> None:
    files = [str(SCENARIOS / f"{name}.toml") for name in NAMES]
    first, second = (run(ANSWER, *files, seed=seed) for seed in ("1", "4242"))
    assert first == second
    assert first.count('"title"') >= 2 * len(NAMES)


def test_help_and_import_load_nothing_heavy() -> None:
    assert "Commands:" in run(LIGHT)
