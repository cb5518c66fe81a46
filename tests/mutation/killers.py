"""The table of killers: for each mutant a test that fails with it, and for those that change nothing, why."""

import json
import tomllib
from functools import cache
from pathlib import Path

HERE = Path(__file__).parent
KILLERS = HERE / "killers.json"
EQUIVALENT = HERE / "equivalent.toml"


@cache
def killers() -> dict[str, str]:
    """The node id of a test for each mutant, by the mutant's id."""
    found: dict[str, str] = json.loads(KILLERS.read_text(encoding="utf-8")) if KILLERS.exists() else {}
    return found


@cache
def equivalent() -> dict[str, str]:
    """Why a mutant changes no answer, by the mutant's id."""
    found: dict[str, str] = tomllib.loads(EQUIVALENT.read_text(encoding="utf-8"))
    return found


def write(found: dict[str, str]) -> None:
    """Put a new table in place of the old one."""
    KILLERS.write_text(json.dumps(found, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")
    killers.cache_clear()
