"""Every jam in ``scenarios`` is planned, and what it must cost was reasoned out by hand from the rules."""

import shutil
from pathlib import Path
from typing import NamedTuple

import pytest

import solver
from solver.outcome import Impossible, Planned
from solver.reading import read_jam
from tests.showing import SCENARIOS, commands_in

GOLDEN = Path(__file__).parent / "golden"


class Expected(NamedTuple):
    """What a plan must say of itself."""

    status: str
    cables: int = 0
    silenced: int = 0
    settings_moved: int = 0


EXPECTED = {
    # Two amounts of ducking: two strips, so both jacks of barge, and a lead for the notes. Moved: three pans; arp's
    # engine leaves channel 1, and so does the engine beside it, which would sound along with bass and pad.
    "low-tide": Expected("proved", 3, 0, 5),
    # Two boxes to hear, two on one MIDI chain. Bass cannot stay on channel 1, where three more engines of barge
    # listen (1); no lane stands on a channel of limpet, so the lane or the chime moves (1).
    "harbour-lights": Expected("proved", 4, 0, 2),
    # Both sides of the pad, and bass on the strip that the pad's reverb is not on: three audio cables. Lanes and
    # voices stand on 1, 2 and 3 alike; only the bass changes its outlet.
    "slow-swell": Expected("proved", 4, 0, 1),
    # Two strips fed by one breakout from the headphone jack; two pans.
    "narrow-channel": Expected("proved", 2, 0, 2),
    # Two amounts of reverb need two mono cables, there is one; a breakout or another kind is not in the drawer.
    "short-rope": Expected("impossible"),
    # Two boxes to hear; clock has to reach fogbank, so notes do too. The lane moves to the fixed channel, the drone
    # is off.
    "rain-on-tin": Expected("proved", 4, 0, 2),
    # The drone sounds for every channel: both pad tracks stop sending.
    "foghorn": Expected("proved", 2, 0, 2),
    # CLINK is fixed on the hat's channel: level zero (1 silenced, 1 moved), and the lane moves to that channel.
    "last-lamp": Expected("proved", 2, 1, 2),
    # One cable to hear the bell; notes take the way over barge, whose sockets are DIN. The lane leaves channel 1,
    # where four engines of barge listen, for the channel of the chime: one move instead of four.
    "crossed-oars": Expected("proved", 3, 0, 1),
    # Two boxes into eddy, eddy into the one input, two leads. Moves as in harbour-lights.
    "three-rivers": Expected("proved", 5, 0, 2),
    # One plug into the left jack feeds both sides; no lane stands on a channel of limpet.
    "echo-cove": Expected("proved", 2, 0, 1),
    # One audio cable and one lead for the one module; reed and lane stand on channel 1 alike, and the others of
    # wherry are on channels of their own.
    "third-lantern": Expected("proved", 2, 0, 0),
    # Either side will do, so barge's left jack, which sums, is enough. The bass leaves channel 1, the hiss and the
    # third lane both stand on 5.
    "one-ear-open": Expected("proved", 2, 0, 1),
    # The bell must live where program changes are ignored: limpet. Lane, choir and bell meet on one channel, which
    # cannot be 1: two of the three move.
    "tide-tables": Expected("proved", 4, 0, 2),
    # Gaff stands in the chain and repeats: one audio cable, two leads. The bass leaves channel 1.
    "second-watch": Expected("proved", 3, 0, 1),
    # The merger costs three leads. Two synths leave channel 1, for channels on which the two lanes stand.
    "confluence": Expected("proved", 4, 0, 2),
}


def test_every_scenario_is_expected() -> None:
    assert {path.stem for path in SCENARIOS.glob("*.toml")} == set(EXPECTED)


@pytest.mark.parametrize("name", EXPECTED)
def test_scenario(name: str) -> None:
    jam = read_jam(SCENARIOS / f"{name}.toml")
    outcome = solver.plan(jam, time_limit=None)
    if isinstance(outcome, Impossible):
        assert EXPECTED[name] == Expected("impossible")
        return
    assert isinstance(outcome, Planned)
    plan = outcome.best
    assert plan.goals is not None
    found = Expected(plan.status, plan.goals.cables, plan.goals.silenced, plan.goals.settings_moved)
    assert found == EXPECTED[name]
    assert solver.check(jam, plan) == ()


@pytest.mark.parametrize(
    ("name", "line", "loosened"),
    [
        # what each of these jams turns on: without it, the answer is another
        ("narrow-channel", 'mirrors = "MAIN"', Expected("proved", 3, 0, 2)),
        ("one-ear-open", 'mains  = "mono"', Expected("proved", 3, 0, 1)),
        ("echo-cove", 'alone = "copy"', Expected("impossible")),
        ("foghorn", "can_be_off = true", Expected("impossible")),
        ("rain-on-tin", "can_be_off = true", Expected("impossible")),
        ("second-watch", 'repeats = "KEYS IN"', Expected("impossible")),
        ("crossed-oars", 'plug  = "trs-b"', Expected("proved", 2, 0, 1)),
    ],
)
def test_what_a_scenario_turns_on(name: str, line: str, loosened: Expected, tmp_path: Path) -> None:
    """Leave one line out of a jam or its boxes, and see that the plan changes as its comment says."""
    for path in SCENARIOS.rglob("*.toml"):
        copy = tmp_path / path.relative_to(SCENARIOS)
        copy.parent.mkdir(parents=True, exist_ok=True)
        kept = [written for written in path.read_text("utf-8").splitlines() if not written.startswith(line)]
        copy.write_text("\n".join(kept), "utf-8")
    outcome = solver.plan(read_jam(tmp_path / f"{name}.toml"), time_limit=None)
    if isinstance(outcome, Planned) and outcome.best.goals is not None:
        assert Expected(outcome.best.status, *outcome.best.goals.model_dump().values()) == loosened
    else:
        assert isinstance(outcome, Impossible)
        assert loosened == Expected("impossible")


def test_a_bigger_drawer_makes_short_rope_possible(tmp_path: Path) -> None:
    shutil.copytree(SCENARIOS / "boxes", tmp_path / "boxes")
    text = (SCENARIOS / "short-rope.toml").read_text("utf-8").replace('"6.35 mono" = 1', '"6.35 mono" = 2')
    (tmp_path / "long-rope.toml").write_text(text, "utf-8")
    outcome = solver.plan(read_jam(tmp_path / "long-rope.toml"), time_limit=None)
    assert isinstance(outcome, Planned)
    assert len(outcome.best.cables) == 3


def test_low_tide_reads_as_it_did(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The text of the first plan, 80 cells wide, to the letter."""
    status, output = commands_in(tmp_path, monkeypatch)("hardpan plan scenarios/low-tide.toml")
    assert status == 0
    assert output == (GOLDEN / "low-tide.txt").read_text("utf-8")


def test_short_rope_leaves_with_status_1(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    status, output = commands_in(tmp_path, monkeypatch)("hardpan plan scenarios/short-rope.toml")
    assert status == 1
    assert output.startswith("Impossible, proved:")
