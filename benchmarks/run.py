"""Takes all measurements: ``python -m benchmarks`` writes docs/reference/performance.md, its plot and its numbers."""

import compileall
import json
import os
import platform
import subprocess
import sys
from collections.abc import Iterator
from datetime import UTC, datetime
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path
from typing import Any

from benchmarks.files import write
from benchmarks.processes import ROUNDS, hardpan, measured, python
from benchmarks.rigs import SIZES, Size, rig
from benchmarks.variants import VARIANTS

ROOT = Path(__file__).parent.parent
WAYS = ("twin", "highs", "hand")
"""The rivals, as ``benchmarks.rivals`` calls them; that file loads solvers, so it stays in processes of its own."""

LIMIT = 60.0
"""Seconds that a rival has for one jam."""

RIVAL_SIZES = (Size(1, 4, 2), Size(2, 4, 4), Size(2, 8, 4), Size(3, 6, 6), *SIZES[1:])
GROWING = tuple(Size(modules, 8, 2 * modules) for modules in (1, 2, 4, 6, 8, 12, 16))
LARGE, MIDDLE, QUICK = SIZES[2], SIZES[1], SIZES[0]

_BOXES = "scenarios/boxes"
WHAT_IFS = (
    ("harbour-lights", "--set", "intent.2.with.reverb=20"),
    ("harbour-lights", "--remove-box", "limpet", "--drop-part", "bell"),
    ("three-rivers", "--drop", "intent.1"),
    ("rain-on-tin", "--add-box", f"cleft={_BOXES}/cleft.toml"),
    ("third-lantern", "--from", "scenarios/changes/low-voice.toml"),
    ("third-lantern", "--add-box", f"coracle={_BOXES}/coracle.toml", "--add-part", "low = { on = 'coracle' }"),
    ("harbour-lights", "--sweep"),
    ("harbour-lights", "--frontier"),
)
"""Jams of three boxes, before or after the change, and what is asked of them."""

BASES = {
    "python": ("-c", "pass"),
    "click": ("-c", "import click"),
    "ortools": ("-c", "from ortools.sat.python import cp_model"),
    "libraries": ("-c", "import click, pydantic; from ortools.sat.python import cp_model"),
}
"""What an empty Python process, the commands' library, the solver, and all libraries take to start."""


def measure(folder: Path, quick: bool) -> dict[str, Any]:
    """Take every measurement, with the rigs' files in a folder.

    Args:
        folder: Where the files go.
        quick: Only the smallest sizes, one round, and rivals with a tenth of their time.
    """
    sizes = SIZES[:2] if quick else SIZES
    jams = {f"plain {_told(size)}": write(rig(size), folder / _told(size)) for size in sizes}
    middle = QUICK if quick else MIDDLE
    for name in VARIANTS:
        jams[f"{name} {_told(middle)}"] = write(rig(middle, name), folder / name)
    jams |= {path.stem: path for path in sorted((ROOT / "scenarios").glob("*.toml"))}
    jams |= {f"set {path.stem}": path for path in sorted((ROOT / "scenarios" / "sets").glob("*.toml"))}
    commands = {name: python(*arguments) for name, arguments in BASES.items()} | {"help": hardpan("--help")}
    commands |= {name: hardpan("plan", str(path)) for name, path in jams.items()}
    refused = sorted((ROOT / "scenarios" / "impossible").glob("*.toml"))[: 2 if quick else None]
    explained = {f"{way} {path.stem}": hardpan(way, str(path)) for path in refused for way in ("plan", "explain")}
    commands |= explained
    changed = {f"{name} {' '.join(asked)}": hardpan("whatif", str(jams[name]), *asked) for name, *asked in WHAT_IFS}
    commands |= changed
    rounds = 1 if quick else ROUNDS
    compileall.compile_dir(ROOT / "solver", quiet=1)  # as an installation does
    _tell(f"{len(commands)} commands, each {rounds} times")
    taken = measured(commands, rounds)
    return {
        "machine": _machine(),
        "quick": quick,
        "whole": {name: found._asdict() for name, found in taken.items() if name not in {*explained, *changed}},
        "explained": {name: taken[name].seconds for name in explained},
        "changed": {name: taken[name].seconds for name in changed},
        "conflicts": {
            f"{name} {_told(size)}": _json(python("-m", "benchmarks.conflicts", str(path)))
            for size in (sizes[:1] if quick else (MIDDLE, LARGE))
            for name, variant in VARIANTS.items()
            if not variant.possible
            for path in [write(rig(size, name), folder / f"{name}-{_told(size)}")]
        },
        "inside": {name: _json(python("-m", "benchmarks.inside", str(path), "60")) for name, path in jams.items()},
        "growth": {_told(size): found for size, found in _growth(folder, GROWING[:3] if quick else GROWING)},
        "rivals": dict(_rivals(folder, RIVAL_SIZES[:3] if quick else RIVAL_SIZES, LIMIT / 10 if quick else LIMIT)),
        "hand": {
            name: _json(python("-m", "benchmarks.rivals", "hand", str(path), "60"))
            for name, path in jams.items()
            if _told(middle) in name
        },
    }


def _growth(folder: Path, sizes: tuple[Size, ...]) -> Iterator[tuple[Size, Any]]:
    for size in sizes:
        _tell(f"growth {_told(size)}")
        path = write(rig(size), folder / f"growth-{size.modules}")
        found = [_json(python("-m", "benchmarks.inside", str(path), "60")) for _ in range(3)]
        yield size, sorted(found, key=lambda one: one["search"])[1] | {"parts": len(rig(size).parts)}


def _rivals(folder: Path, sizes: tuple[Size, ...], limit: float) -> Iterator[tuple[str, Any]]:
    for size in sizes:
        path = write(rig(size), folder / f"rival-{_told(size)}")
        found = {"hardpan": _json(python("-m", "benchmarks.inside", str(path), "60"))}
        for way in WAYS:
            _tell(f"{way} {_told(size)}")
            found[way] = _json(python("-m", "benchmarks.rivals", way, str(path), str(limit)))
        yield _told(size), found


def _json(command: list[str]) -> Any:
    """What a command answers: its last line; some libraries print a banner before it."""
    done = subprocess.run(command, capture_output=True, text=True, cwd=ROOT, check=False)
    if done.returncode:
        return {"status": "failed", "why": done.stderr.strip().splitlines()[-1]}
    return json.loads(done.stdout.strip().splitlines()[-1])


def _told(size: Size) -> str:
    return f"({size.modules}, {size.engines}, {size.strips})"


def _tell(what: str) -> None:
    print(what, file=sys.stderr, flush=True)


def _machine() -> dict[str, Any]:
    versions = {}
    for name in ("ortools", "pydantic", "click", "highspy"):
        try:
            versions[name] = version(name)
        except PackageNotFoundError:
            versions[name] = "not installed"
    return {
        "date": datetime.now(UTC).date().isoformat(),
        "system": f"{platform.system()} {platform.machine()}",
        "cores": os.cpu_count(),
        "load": round(os.getloadavg()[0], 1),
        "python": platform.python_version(),
        "versions": versions,
    }
