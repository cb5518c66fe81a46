"""Writes the table of docs/checks.md: ``python -m tests.outside``."""

import importlib
from pathlib import Path

from tests.outside.checks import Check

HERE = Path(__file__).parent
PAGE = HERE.parents[1] / "docs" / "checks.md"
HEAD = "| check | source | kind | test |\n| --- | --- | --- | --- |\n"


def checks() -> dict[str, Check | None]:
    """Every test of this folder by its place, in order; None for one that says no source."""
    found: dict[str, Check | None] = {}
    for file in sorted(HERE.glob("test_*.py")):
        module = importlib.import_module(f"tests.outside.{file.stem}")
        for name, test in vars(module).items():
            if name.startswith("test_"):
                found[f"{file.stem}::{name}"] = getattr(test, "check", None)
    return found


def table() -> str:
    """All checks, one a row."""
    rows = [
        f"| {check.says} | {check.source} | {check.kind} | `tests/outside/{place.replace('::', '.py::')}` |\n"
        for place, check in checks().items()
        if check is not None
    ]
    return HEAD + "".join(rows)


def page() -> str:
    """The page with its table, which ends it, made anew."""
    return PAGE.read_text("utf-8").partition(HEAD)[0] + table()


if __name__ == "__main__":
    PAGE.write_text(page(), "utf-8")
