"""Text and data that are no box, jam, set or plan at all, or only nearly."""

import json
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st

from solver.cli import main
from solver.cli.exits import Exit
from solver.reading import read_box, read_jam, read_jam_or_set, read_plan, read_saved, read_saved_set, read_set
from tests.fuzz.said import said_well
from tests.showing import SCENARIOS

JAM = SCENARIOS / "low-tide.toml"
TOML: dict[str, Callable[[Path], object]] = {
    "box": read_box,
    "jam": read_jam,
    "set": read_set,
    "jam or set": read_jam_or_set,
}
JSON: dict[str, Callable[[Path], object]] = {
    "plan": lambda file: read_plan(file, read_jam(JAM)),
    "saved": read_saved,
    "saved set": read_saved_set,
}
WORDS = [
    "title", "leader", "listen", "mains", "boxes", "cables", "part", "intent", "recall", "tempo", "jams", "name",
    "about", "voices", "out", "in", "strip", "engine", "track", "midi", "left", "right", "stereo", "mono", "plug",
    "alone", "from", "to", "pan", "offers", "key", "channels", "channel", "stored", "way", "copies", "repeats",
    "clock", "on", "sound", "layer", "separate", "treat", "with", "avoid", "keep", "play", "match", "program",
    "cable", "parts", "strips", "engines", "settings", "goals", "kind", "status",
]  # fmt: skip

scalars = (
    st.none()
    | st.booleans()
    | st.integers(-200, 200)
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(max_size=8)
    | st.sampled_from(["tiller", "tiller/MAIN", "barge", "din", "left", "all", "boxes/tiller.toml", "low-tide.toml"])
)
keys = st.sampled_from(WORDS) | st.text(max_size=6)
values = st.recursive(scalars, lambda inner: st.lists(inner, max_size=4) | st.dictionaries(keys, inner, max_size=4))
tables = st.dictionaries(st.sampled_from(WORDS), values, max_size=10)


def as_toml(value: Any) -> str:
    """A value as TOML writes it in one line; what TOML does not have is a number."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{json.dumps(key)} = {as_toml(inner)}" for key, inner in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(as_toml, value)) + "]"
    return "0" if value is None else json.dumps(value)


def _read(read: Callable[[Path], object], raw: bytes) -> bool:
    with tempfile.TemporaryDirectory() as temporary:
        file = Path(temporary) / "some file"
        file.write_bytes(raw)
        return said_well(lambda: read(file))


@pytest.mark.parametrize("kind", TOML)
@given(table=tables)
@settings(max_examples=60)
def test_toml_of_other_shapes(kind: str, table: dict[str, Any]) -> None:
    text = "".join(f"{key} = {as_toml(value)}\n" for key, value in table.items())
    _read(TOML[kind], text.encode("utf-8", errors="surrogatepass"))


@pytest.mark.parametrize("kind", JSON)
@given(data=tables | values)
@settings(max_examples=60)
def test_json_of_other_shapes(kind: str, data: Any) -> None:
    _read(JSON[kind], json.dumps(data).encode())


@pytest.mark.parametrize("kind", [*TOML, *JSON])
@given(raw=st.binary(max_size=200) | st.text(max_size=200).map(lambda text: text.encode()))
@settings(max_examples=60)
def test_any_bytes(kind: str, raw: bytes) -> None:
    _read({**TOML, **JSON}[kind], raw)


COMMANDS = (
    ["plan", "FILE"],
    ["explain", "FILE"],
    ["whatif", "FILE", "--drop-part", "kick"],
    ["check", str(JAM), "FILE"],
    ["check", "FILE", "FILE"],
    ["trace", str(JAM), "FILE", "kick"],
    ["export", "FILE", "--to", "made.txt"],
    ["box", "check", "FILE"],
    ["box", "show", "FILE"],
)


@pytest.mark.parametrize("words", COMMANDS, ids=" ".join)
@pytest.mark.parametrize("ending", ["toml", "json"])
@given(table=tables, raw=st.none() | st.binary(max_size=100))
@settings(max_examples=12)
def test_commands_refuse_and_never_fall_over(
    words: list[str], ending: str, table: dict[str, Any], raw: bytes | None
) -> None:
    with tempfile.TemporaryDirectory() as temporary:
        file = Path(temporary) / f"some.{ending}"
        text = json.dumps(table) if ending == "json" else "".join(f"{k} = {as_toml(v)}\n" for k, v in table.items())
        file.write_bytes(text.encode("utf-8", errors="surrogatepass") if raw is None else raw)
        made = Path(temporary) / "made.txt"
        places = {"FILE": str(file), "made.txt": str(made)}
        done = CliRunner().invoke(main, [places.get(word, word) for word in words])
        assert done.exit_code in (Exit.WELL, Exit.FAILED, Exit.BAD_INPUT), (done.output, done.exception)
        assert "Traceback" not in done.output and "Sorry" not in done.output
        assert not made.exists() or done.exit_code == Exit.WELL
