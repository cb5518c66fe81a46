"""Good files are read as they stand."""

import json
import subprocess
import sys
from pathlib import Path

from solver.gear.words import Spot
from solver.reading import read_box, read_jam, read_plan
from tests.reading.plans import PLAN
from tests.reading.table import lay


def test_a_jam_with_its_boxes(tmp_path: Path) -> None:
    jam = read_jam(lay(tmp_path))
    assert list(jam.boxes) == ["tiller", "barge"]
    assert jam.boxes["barge"] == read_box(tmp_path / "boxes" / "barge.toml")
    assert Spot("tiller", "EXT 1") in jam.rig.tracks
    assert len(jam.intents) == 8


def test_an_intent_counts_once_unless_its_weight_says_otherwise(tmp_path: Path) -> None:
    heavy = ("jam", 'clock = ["barge"]', 'clock = ["barge"]\nweight = 1000')
    jam = read_jam(lay(tmp_path, ("jam", "layer =", "weight = 7\nlayer ="), heavy))
    assert [intent.weight for intent in jam.intents] == [7, 1, 1, 1, 1, 1, 1, 1000]


def test_one_file_for_two_names_is_read_once(tmp_path: Path) -> None:
    jam = read_jam(lay(tmp_path, ("jam", "barge = ", 'lighter = "boxes/barge.toml"\nbarge = ')))
    assert jam.boxes["lighter"] is jam.boxes["barge"]


def test_a_byte_order_mark_and_long_line_ends(tmp_path: Path) -> None:
    jam = lay(tmp_path)
    text = jam.read_bytes()
    jam.write_bytes(b"\xef\xbb\xbf" + text.replace(b"\n", b"\r\n"))
    assert read_jam(jam).title == "Low Tide"


def test_a_plan_comes_back_as_it_was(tmp_path: Path) -> None:
    jam = read_jam(lay(tmp_path))
    file = tmp_path / "plan.json"
    file.write_text(PLAN, encoding="utf-8")
    plan = read_plan(file, jam)
    assert "arp" not in plan.parts
    file.write_text(json.dumps(plan.to_json()), encoding="utf-8")
    assert read_plan(str(file), jam) == plan


def test_reading_loads_no_heavy_library() -> None:
    code = "import sys, solver.reading; print({'ortools', 'click', 'tabulate', 'tree_sitter'} & sys.modules.keys())"
    answer = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert answer.stdout.strip() == "set()"
