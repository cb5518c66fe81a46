"""What the documentation tells of rules, keys, cables and statuses is what the code has."""

import re
from collections.abc import Iterator

import pytest
from pydantic import BaseModel

import solver
from solver.boxes import SHIPPED
from solver.cli import COMMANDS
from solver.cli.exits import Exit
from solver.gear.box import Box, Engine, Port, Strip, Track
from solver.gear.cables import KINDS
from solver.gear.connections import Inlet, Outlet
from solver.jam.intents import KEEP_FORMS, Kept, Shunned
from solver.jam.intents import KINDS as INTENTS
from solver.jam.jam import Jam, Part
from solver.jam.sets import SetFile
from solver.plans import BESIDE, Cable, Plan, PlannedEngine, PlannedPart, PlannedStrip, Recalled, Setting, Timing
from solver.rules import RULES
from solver.set_plans import Between, Change, SetPlan
from tests.showing import ROOT

REFERENCE = ROOT / "docs" / "reference"
FORMATS = (REFERENCE / "formats.md").read_text("utf-8")
TOLD = re.findall(r"^### (\w+)\n\n(?:> (.+)\n)?", (REFERENCE / "rules.md").read_text("utf-8"), re.MULTILINE)
MODELS: dict[str, type[BaseModel]] = {
    "The box": Box,
    "Outlet": Outlet,
    "Inlet": Inlet,
    "Strip": Strip,
    "Engine": Engine,
    "Track": Track,
    "MIDI socket": Port,
    "The jam": Jam,
    "Part": Part,
    "Avoid": Shunned,
    "Keep": Kept,
    "The set": SetFile,
    "The plan": Plan,
    "Cable": Cable,
    "Planned part": PlannedPart,
    "Planned strip": PlannedStrip,
    "Planned engine": PlannedEngine,
    "Recalled": Recalled,
    "Setting": Setting,
    "The plan of a set": SetPlan,
    "Between two jams": Between,
    "Change": Change,
    "Timing": Timing,
}


def rows(section: str) -> Iterator[list[str]]:
    """The rows of the table under a heading, without its header."""
    text = re.split(r"^#+ ", FORMATS.partition(f"### {section}\n")[2], maxsplit=1, flags=re.MULTILINE)[0]
    for line in [line for line in text.splitlines() if line.startswith("|")][2:]:
        yield [cell.strip() for cell in line.strip("|").split("|")]


def test_every_rule_is_told_with_its_own_sentence() -> None:
    assert {rule: sentence for rule, sentence in TOLD if sentence} == {rule.id: rule.sentence for rule in RULES}


def test_rules_are_told_in_order_and_the_goals_last() -> None:
    told = [rule for rule, _ in TOLD]
    by_number = sorted((rule.id for rule in RULES), key=lambda rule: ("AMDKPS".index(rule[0]), int(rule[1:])))
    assert told == [*by_number, "G1", "G2", "G3"]


@pytest.mark.parametrize("section", MODELS)
def test_every_key_is_told_with_its_default(section: str) -> None:
    told = {row[0].strip("`"): row[2] for row in rows(section)}
    fields = {field.alias or name: field for name, field in MODELS[section].model_fields.items()}
    assert set(told) == set(fields)
    for key, field in fields.items():
        assert (told[key] == "required") == field.is_required(), key
        if isinstance(field.default, bool | int | str):
            said = str(field.default).lower() if isinstance(field.default, bool) else str(field.default)
            assert told[key] in (said, f'`"{said}"`'), key


def test_what_stands_beside_a_plan_is_told() -> None:
    assert [row[0].strip("`") for row in rows("Beside the plan")] == list(BESIDE)


def test_every_kind_of_intent_is_told() -> None:
    told = {row[0].strip("`"): set(re.findall(r"`(\w+)`", row[1])) for row in rows("Intent")}
    assert list(told) == [intent.kind for intent in INTENTS]
    for intent in INTENTS:
        keys = {field.alias or name for name, field in intent.model_fields.items()}
        assert told[intent.kind] == keys - {intent.kind, "name", "weight"}
        beside = {row[0].strip("`") for row in rows("Beside the kind") if row[1].strip("`") in ("any", intent.kind)}
        assert beside == keys - {intent.kind}
    keep = next(row[2] for row in rows("Intent") if row[0] == "`keep`")
    assert all(f"`{form}`" in keep for form in KEEP_FORMS)


def test_every_cable_kind_is_told() -> None:
    told = [kind for row in rows("Cable kinds") for kind in re.findall(r"`([^`]+)`", row[0])]
    assert sorted(told) == sorted(KINDS)


def test_every_shipped_box_file_is_told() -> None:
    told = re.findall(r"^\| `([\w-]+\.toml)` \|", (REFERENCE / "boxes.md").read_text("utf-8"), re.MULTILINE)
    assert sorted(told) == sorted(file.name for file in SHIPPED.glob("*.toml"))


def test_the_readme_tells_every_exit_status() -> None:
    readme = (ROOT / "README.md").read_text("utf-8")
    told = {int(number) for number in re.findall(r"\| (\d) \|$", readme, re.MULTILINE)}
    assert told == {status for status in Exit if status != Exit.OWN_MISTAKE}


def test_the_readme_tells_answers_in_their_own_words() -> None:
    readme = (ROOT / "README.md").read_text("utf-8")
    said = "".join(path.read_text("utf-8") for path in (ROOT / "solver" / "sheet").glob("*.py"))
    told = re.findall(r"^\| `([^`]+)` \|", readme, re.MULTILINE)
    assert len(told) == 4
    assert [answer for answer in told if answer not in said] == []


def test_the_changelog_tells_the_version_and_every_command() -> None:
    changelog = (ROOT / "CHANGELOG.md").read_text("utf-8")
    assert f"## {solver.__version__}\n" in changelog
    assert all(re.search(f"`hardpan {command}[` ]", changelog) for command in COMMANDS)
