"""``hardpan trace``."""

import json
from pathlib import Path

import pytest
from click.shell_completion import ShellComplete

from solver.cli import main
from tests.showing import Shown, commands_in

LINE = "hardpan trace scenarios/low-tide.toml docs/by-hand.json"


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Shown:
    """A way to run command lines beside copies of scenarios and docs."""
    return commands_in(tmp_path, monkeypatch)


def test_a_part_that_is_heard_exits_0(run: Shown) -> None:
    status, said = run(f"{LINE} arp")
    assert status == 0
    assert said.startswith("arp in Low Tide: from track to ears\n===")
    status, said = run(f"{LINE} arp --json")
    assert (status, json.loads(said)["status"]) == (0, "heard")


def test_a_part_that_is_silent_exits_1(run: Shown) -> None:
    plan = json.loads(Path("docs/by-hand.json").read_text("utf-8"))
    plan["cables"].pop()
    Path("broken.json").write_text(json.dumps(plan), "utf-8")
    line = LINE.replace("docs/by-hand", "broken")
    status, said = run(f"{line} arp")
    assert status == 1
    assert "Silent:\n- Its notes come as far as tiller/MIDI OUT: no cable is plugged there.\n" in said
    assert run(f"{line} kick")[0] == 0
    status, said = run(f"{line} arp --json")
    assert (status, json.loads(said)["stops"][0]["cause"]) == (1, "no cable")


def test_a_mistyped_part_names_the_nearest_and_exits_2(run: Shown) -> None:
    assert run(f"{LINE} basss") == (
        2,
        'PART: found "basss"; allowed: a part of this jam: "kick", "bass", "pad", "arp"; did you mean "bass"? [N01]\n',
    )
    status, said = run(f"{LINE} zzz --json")
    assert status == 2
    assert json.loads(said[said.index("{") :])["status"] == "bad input"


@pytest.mark.parametrize(
    "line",
    [
        "hardpan trace none.toml docs/by-hand.json arp",
        "hardpan trace scenarios/low-tide.toml none.json arp",
        "hardpan trace scenarios/low-tide.toml scenarios/low-tide.toml arp",
        "hardpan trace scenarios/low-tide.toml docs/by-hand.json",
    ],
)
def test_bad_input_exits_2(run: Shown, line: str) -> None:
    assert run(line)[0] == 2


def test_a_saved_plan_is_traced_and_the_same_every_time(run: Shown) -> None:
    assert run("hardpan plan scenarios/low-tide.toml --out plan.json")[0] == 0
    line = "hardpan trace scenarios/low-tide.toml plan.json bass"
    assert run(line) == run(line)
    assert run(line)[0] == 0


def test_parts_of_the_jam_are_completed(run: Shown) -> None:
    words = ["trace", "scenarios/low-tide.toml", "docs/by-hand.json"]
    shell = ShellComplete(main, {}, "hardpan", "_HARDPAN_COMPLETE")
    assert [item.value for item in shell.get_completions(words, "")] == ["kick", "bass", "pad", "arp"]
    assert [item.value for item in shell.get_completions(words, "b")] == ["bass"]
    assert [item.type for item in shell.get_completions(words[:1], "")] == ["file"]
