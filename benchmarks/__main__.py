"""``python -m benchmarks [--quick] [--out FILE]``: times hardpan, its twin and others on the same jams in one run."""

import json
import os
import platform
import subprocess
from datetime import UTC, datetime
from importlib.metadata import version
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import click
from tabulate import tabulate

from benchmarks.files import write
from benchmarks.processes import Taken, hardpan, measured, python
from benchmarks.rigs import Size, rig
from benchmarks.rivals import WAYS
from benchmarks.variants import VARIANTS

ROOT = Path(__file__).parents[1]
SIZES = (Size(2, 4, 4), Size(4, 8, 8), Size(8, 8, 16), Size(16, 8, 32))
RIVAL_SIZES = (Size(2, 4, 4), Size(2, 8, 4), Size(4, 8, 8), Size(8, 8, 16))
VARIED = Size(4, 8, 8)
LIBRARIES = "from ortools.sat.python import cp_model; import pydantic, click"
LIMIT = 60
ANSWERS = {0: "planned", 1: "impossible", 3: "not decided"}


@click.command()
@click.option("--quick", is_flag=True, help="The smallest size and the scenarios only, one round each.")
@click.option("--out", type=click.Path(path_type=Path, dir_okay=False), help="Write the tables to this file.")
def main(quick: bool, out: Path | None) -> None:
    """Measure, and print or write what was found."""
    with TemporaryDirectory() as folder:
        jams = _jams(Path(folder), quick)
        commands = {
            "bare solver": python("-c", "from ortools.sat.python import cp_model"),
            "libraries": python("-c", LIBRARIES),
            "click": python("-c", "import click"),
            "help": hardpan("--help"),
        } | {name: hardpan("plan", str(path), "--time-limit", str(LIMIT)) for name, path in jams.items()}
        taken = measured(commands, 1) if quick else measured(commands)
        inside = {name: _told("benchmarks.inside", str(path), str(LIMIT)) for name, path in jams.items()}
        sizes = RIVAL_SIZES[:1] if quick else RIVAL_SIZES
        rivals = {str(tuple(size)): _rivals(write(rig(size), Path(folder, f"{size}"))) for size in sizes}
    text = "\n\n".join((_head(), _whole(taken, inside), _inside(inside), _side_by_side(rivals))) + "\n"
    if out is None:
        click.echo(text)
    else:
        out.write_text(text, "utf-8")


def _jams(folder: Path, quick: bool) -> dict[str, Path]:
    wanted = [("plain", size) for size in (SIZES[:1] if quick else SIZES)]
    wanted += [] if quick else [(variant, VARIED) for variant in VARIANTS if variant != "plain"]
    rigs = {f"{name} {tuple(size)}": write(rig(size, name), folder / f"{name}{size}") for name, size in wanted}
    return rigs | {path.stem: path for path in sorted((ROOT / "scenarios").glob("*.toml"))}


def _told(module: str, *arguments: str) -> dict[str, Any]:
    done = subprocess.run(python("-m", module, *arguments), capture_output=True, cwd=ROOT, check=True)
    told: dict[str, Any] = json.loads(done.stdout)
    return told


def _rivals(path: Path) -> dict[str, dict[str, Any]]:
    found = {way: _told("benchmarks.rivals", way, str(path), str(LIMIT)) for way in WAYS}
    return found | {"hardpan": _told("benchmarks.inside", str(path), str(LIMIT))}


def _table(heads: list[str], rows: list[list[object]]) -> str:
    return tabulate(rows, heads, tablefmt="github", floatfmt=".3f")


def _head() -> str:
    libraries = ", ".join(f"{name} {version(name)}" for name in ("ortools", "pydantic", "click"))
    machine = f"{os.cpu_count()} cores, {platform.system()} {platform.machine()}, Python {platform.python_version()}"
    day = datetime.now(UTC).date()
    return f"Measured on {day}: {machine}, {libraries}. Load at the end: {os.getloadavg()[0]:.1f}."


def _whole(taken: dict[str, Taken], inside: dict[str, dict[str, Any]]) -> str:
    bare, libraries = taken["bare solver"].seconds, taken["libraries"].seconds
    rows: list[list[object]] = []
    for name, run in taken.items():
        answer = ANSWERS.get(run.status, f"status {run.status}") if name in inside else ""
        answer += {True: ", proved", False: ", not proved", None: ""}[inside.get(name, {}).get("proved")]
        rows.append([name, run.seconds, run.seconds / bare, run.seconds - libraries, round(run.memory), answer])
    heads = ["whole process", "seconds", "times the bare solver", "beyond the libraries", "MB", "answer"]
    return _table(heads, rows)


def _inside(inside: dict[str, dict[str, Any]]) -> str:
    steps = ("read", "build", "search", "follow")
    rows = [
        [name, *(told[step] for step in steps), told["choices"], "/".join(map(str, told.get("goals", ())))]
        for name, told in inside.items()
    ]
    return _table(["in the process", *steps, "choices", "cables/silenced/moved"], rows)


def _side_by_side(rivals: dict[str, dict[str, dict[str, Any]]]) -> str:
    rows = [
        [size, told["hardpan"]["build"] + told["hardpan"]["search"], *(_rival(told[way]) for way in WAYS)]
        for size, told in rivals.items()
    ]
    heads = ["size", "hardpan", "plain model, CP-SAT", "plain model, HiGHS", "by hand, cables"]
    return _table(heads, rows)


def _rival(told: dict[str, Any]) -> str:
    if told["status"] != "planned":
        return f"{told['status']} ({told['seconds']:.1f} s)"
    return f"{told['goals'][0]} ({told['seconds']:.2f} s)"


if __name__ == "__main__":
    main(prog_name="python -m benchmarks")
