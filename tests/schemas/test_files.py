"""The schemas are made from the models, stand in two places, are valid, and take every good file."""

import json
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any, get_args

import pytest
from jsonschema import Draft202012Validator

from solver.gear.cables import KINDS, MidiPlug
from solver.jam.intents import KINDS as INTENTS
from solver.schemas import Kind, schema_file
from solver.schemas.making import FORMATS, schema_text, write
from tests.reading.table import FILES as TABLE
from tests.schemas.checked import BOXES, JAMS, takes, validator
from tests.showing import ROOT

EVERY = get_args(Kind)


@pytest.mark.parametrize("kind", EVERY)
def test_the_files_are_as_the_models_make_them(kind: Kind) -> None:
    made = schema_text(kind, FORMATS.read_text("utf-8"))
    again = "run python -m solver.schemas"
    assert schema_file(kind).read_bytes() == made.encode(), again
    assert (ROOT / "docs" / "schemas" / f"{kind}.json").read_bytes() == made.encode(), again


def test_making_them_writes_what_has_changed(tmp_path: Path) -> None:
    said: list[str] = []
    write([tmp_path], said.append)
    assert said == [f"{tmp_path / kind}.json is made anew." for kind in EVERY]
    (tmp_path / "jam.json").write_text("{}", "utf-8")
    write([tmp_path], said.append)
    assert said[3:] == [f"{tmp_path}/jam.json is made anew."]
    assert [file.read_bytes() for file in sorted(tmp_path.iterdir())] == [
        schema_file(kind).read_bytes() for kind in sorted(EVERY)
    ]


@pytest.mark.parametrize("kind", EVERY)
def test_each_is_a_schema(kind: Kind) -> None:
    Draft202012Validator.check_schema(validator(kind).schema)


@pytest.mark.parametrize("kind", EVERY)
def test_every_key_has_a_description_and_every_default_is_taken(kind: Kind) -> None:
    whole = validator(kind).schema
    for table in [whole, *whole["$defs"].values()]:
        assert table["description"] and table["additionalProperties"] is False
        for key, value in described(table):
            assert value["description"] and "`" not in value["description"], key
            if "default" in value:
                assert Draft202012Validator({"$defs": whole["$defs"], **value}).is_valid(value["default"]), key


def described(table: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    for key, value in table["properties"].items():
        yield key, value
        if "properties" in value:
            yield from described(value)


def test_the_schemas_speak_of_no_place_elsewhere() -> None:
    for kind in EVERY:
        text = schema_file(kind).read_text("utf-8")
        assert text.count("://") == 1 and '"$id"' not in text


def test_words_to_choose_from_are_all_there() -> None:
    jam, box = validator("jam").schema, validator("box").schema
    assert list(jam["properties"]["cables"]["properties"]) == list(KINDS)
    kinds = [choice["$ref"].rpartition("/")[2] for choice in jam["properties"]["intent"]["items"]["oneOf"]]
    assert kinds == [intent.__name__ for intent in INTENTS]
    assert all(intent.kind in jam["$defs"][intent.__name__]["required"] for intent in INTENTS)
    assert box["$defs"]["Port"]["properties"]["plug"]["enum"] == list(get_args(MidiPlug))
    assert box["properties"]["name"].get("default") is None
    assert box["$defs"]["Engine"]["properties"]["channels"]["default"] == "1-16"


@pytest.mark.parametrize("file", [*BOXES, *JAMS], ids=lambda file: f"{file.parent.name}/{file.stem}")
def test_every_scenario_is_taken(file: Path) -> None:
    kind: Kind = "box" if file in BOXES else "jam"
    assert list(validator(kind).iter_errors(tomllib.loads(file.read_text("utf-8")))) == []


def test_the_good_table_is_taken() -> None:
    assert takes("jam", tomllib.loads(TABLE["low-tide.toml"]))
    assert takes("box", tomllib.loads(TABLE["boxes/tiller.toml"]))


@pytest.mark.parametrize(
    ("data", "good"),
    [
        ({"title": "An evening", "jams": ["low-tide.toml", "foghorn.toml"]}, True),
        ({"title": "An evening"}, False),
        ({"title": "An evening", "jams": []}, False),
        ({"title": "An evening", "jams": "low-tide.toml"}, False),
        ({"title": "An evening", "jams": [""]}, False),
        ({"title": "An evening", "jams": ["low-tide.toml"], "leader": "tiller"}, False),
        ({"jams": ["low-tide.toml"]}, False),
    ],
)
def test_sets(data: dict[str, Any], good: bool) -> None:
    assert takes("set", data) is good
    assert json.loads(json.dumps(data)) == data
