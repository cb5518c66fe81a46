"""docs/checks.md tells every check against the world outside, and no other."""

import importlib
import re

import tests.outside
from tests.outside.checks import Check
from tests.showing import ROOT

FILES = sorted((ROOT / "tests" / "outside").glob("test_*.py"))


def _checks() -> dict[str, Check | None]:
    """Every test of tests/outside by its place, in order; None for one that says no source."""
    found: dict[str, Check | None] = {}
    for file in FILES:
        module = importlib.import_module(f"{tests.outside.__name__}.{file.stem}")
        for name, test in vars(module).items():
            if name.startswith("test_"):
                found[f"{file.stem}::{name}"] = getattr(test, "check", None)
    return found


def test_every_check_says_its_source() -> None:
    assert [place for place, check in _checks().items() if check is None] == []


def test_every_check_is_told() -> None:
    page = (ROOT / "docs" / "checks.md").read_text("utf-8")
    told = re.findall(r"^\| (.+) \| (.+) \| (.+) \| `tests/outside/(\w+)\.py::(\w+)` \|$", page, re.MULTILINE)
    assert {f"{stem}::{name}": Check(says, source, kind) for says, source, kind, stem, name in told} == _checks()
