"""Changes drawn by lot, of every scenario: the file with the changes made in it reads as the jam after them."""

import shutil
from pathlib import Path
from random import Random

import pytest

from solver.cli.saving import BOM
from solver.gear.cables import KINDS as CABLES
from solver.gear.words import dotted
from solver.jam.claims import claims
from solver.jam.intents import Layer, Treat
from solver.jam.jam import Jam
from solver.reading import BadInput, read_jam
from solver.reading.writing import exact
from tests.reading.changing import ask
from tests.showing import SCENARIOS

ALL = sorted(f.relative_to(SCENARIOS) for folder in (".", "impossible") for f in (SCENARIOS / folder).glob("*.toml"))
VALUES = ("on=barge", "notes=3", "sounds=['a', 'b']")


def some_requests(jam: Jam, spare: str, dice: Random) -> list[str]:
    """A few changes of a jam, drawn by lot; some do not go together."""
    parts = [dotted(part) for part in jam.parts]
    names = [exact([dice.choice(list(jam.parts) or ["x"])]) for _ in range(3)]
    pool = [
        f"--add-box spare={spare}",
        f"--add-box {dice.choice(list(jam.boxes))}={spare}",
        '--add-part "new one" = {}',
        '--add-part "new one" = { on = "' + jam.leader + '" }',
        "--add-part hats",
        *(f"--remove-box {box}" for box in jam.boxes if box != jam.leader),
        *(f"--drop-part {part}" for part in jam.parts),
        *(f"--drop {claim.statement}" for claim in claims(jam)),
        *(f"--drop intent.{number + 1}" for number in range(len(jam.intents))),
        *(f"--drawer {kind}={dice.randrange(9)}" for kind in dice.sample(CABLES, 3)),
        *(f"--set part.{part}.{value}" for part in parts for value in VALUES),
        *(f"--set {statement}.with.{dice.choice(list(intent.amounts))}=7" for statement, intent in jam.stated(Treat)),
        *(f"--set {statement}.shift.{dotted(intent.layer[0])}=-7" for statement, intent in jam.stated(Layer)),
        *(f"--set intent.{number + 1}.weight=3" for number in range(len(jam.intents))),
        "--set mains=mono",
        "--set tempo=99.5",
        "--set title=Another \U0001f3b9",
        f"--set recall.{dotted(jam.leader)}='a \\ \"b\"'",
        f"--add-intent stereo = {names[0]}",
        f"--add-intent {{ separate = {names[1]}, name = 'x = y' }}",
        "--add-intent avoid = { channels = [16] }",
        f"--add-intent treat = {names[2]}, with = {{ reverb = 3, 'two words' = 4 }}",
    ]
    return dice.sample(pool, dice.randint(1, 6))


@pytest.fixture(scope="module")
def scenarios(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return Path(shutil.copytree(SCENARIOS, tmp_path_factory.mktemp("scenarios") / "scenarios"))


@pytest.mark.parametrize("windows", [False, True])
@pytest.mark.parametrize("file", ALL, ids=lambda file: file.stem)
def test_a_rewritten_scenario_reads_as_the_jam_after(file: Path, windows: bool, scenarios: Path) -> None:
    before = scenarios / file
    text = (SCENARIOS / file).read_bytes()
    before.write_bytes(BOM + text.replace(b"\n", b"\r\n") if windows else text)
    untouched = before.read_bytes()
    jam, spare, beside = read_jam(before), scenarios / "boxes" / "wherry.toml", before.with_name("changed.toml")
    dice, valid = Random(f"{file} {windows}"), 0
    for _ in range(12):
        words = some_requests(jam, str(spare), dice)
        try:
            changed = ask(*words, file=str(before))
        except BadInput:
            continue
        valid += 1
        new = changed.rewritten()
        beside.write_bytes(new.encode())
        assert read_jam(beside) == changed.after, words
        assert changed.before == jam == read_jam(before)
        assert new.count("\r") == (new.count("\n") if windows else 0)
        stay = [line for line in changed.text.splitlines() if line.startswith("#")]
        assert [line for line in new.splitlines() if line.startswith("#")] == stay
    assert valid >= 3
    assert before.read_bytes() == untouched
