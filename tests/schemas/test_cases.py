"""What the reader refuses because of its shape, the schema of that kind of file refuses too."""

import tomllib
from typing import Any

import pytest

from tests.reading.table import FILES, SHORT
from tests.reading.test_bad_files import CASES
from tests.schemas.checked import takes

OF_NAMES = {
    "channel it cannot take",
    "engine names twice",
    "jack labels twice",
    "mirrors in a loop",
    "mirrors nothing",
    "repeats an out",
    "unknown inlet",
    "unknown outlet",
    "unknown key engine",
    "unknown setting",
    "unknown leader",
    "unknown outlet to listen to",
    "unknown engine",
    "unknown box",
    "unknown part",
    "unknown key part",
    "unknown track",
    "unknown strip",
    "unknown jack",
    "unknown port",
    "unknown socket of a cable",
    "a jack and a port",
    "unknown box in recall",
    "unknown box in a clock intent",
    "shift for a part not in the layer",
    "bad shift and unknown part",
    "missing box file",
    "box file is a directory",
    "box file is a jam",
}
"""What is told only by what a name stands for, or whether it stands for one thing."""

OF_NUMBERS = {"channels downwards", "tempo is not nan"}
"""What a schema cannot say: which of two numbers of a text is higher; and JSON has no number like nan."""


def cases() -> list[Any]:
    listed = [
        case
        for file in ("boxes", "jams", "both")
        for case in tomllib.loads((CASES / f"{file}.toml").read_text("utf-8"))["case"]
    ]
    return [pytest.param(case["name"], case["edits"], id=case["name"].replace(" ", "-")) for case in listed]


@pytest.mark.parametrize(("name", "edits"), cases())
def test_wrong_shapes_are_refused(name: str, edits: list[list[str]]) -> None:
    files = dict(FILES)
    for short, old, new in edits:
        files[SHORT[short]] = files[SHORT[short]].replace(old, new, 1)
    changed = {SHORT[short] for short, *_ in edits}
    refused = [
        file for file in changed if not takes("jam" if file == SHORT["jam"] else "box", tomllib.loads(files[file]))
    ]
    assert bool(refused) is (name not in OF_NAMES | OF_NUMBERS)


def test_the_exceptions_are_cases() -> None:
    assert {case.values[0] for case in cases()} > OF_NAMES | OF_NUMBERS
