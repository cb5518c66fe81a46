"""Every impossible jam in ``scenarios`` is explained by the statements that its story tells of."""

import pytest

from solver.reading import read_jam
from solver.reasons.conflicts import conflicts
from solver.reasons.trial import Trial
from solver.search.clock import Clock
from tests.showing import SCENARIOS

IMPOSSIBLE = SCENARIOS / "impossible"

SAILS = (
    *("gull", "tern", "heron", "plover", "petrel", "gannet", "skua", "auk", "puffin", "grebe"),
    *("curlew", "dunlin", "whimbrel", "egret", "coot", "teal", "widgeon"),
)

MONO = 'cables."6.35 mono"'

EXPECTED: dict[str, list[tuple[str, ...]]] = {
    # Three amounts of ducking with one key; without the drum there is none. Any outlet of barge has two sides.
    "three-winds": [
        ("part.thump", "part.bass", "part.pad", "part.hiss", "intent.1", "intent.2", "intent.3"),
    ],
    # Two strips; a part that lived in tiller would need none.
    "three-reeds": [("part.high.on", "part.middle.on", "part.low.on", "intent.1")],
    # Two boxes on one chain, one lead for notes; a part that lived in tiller would need no lead.
    "lost-lead": [("part.knock.on", "part.bass.on", "cables.din")],
    # Only limpet cannot shift so far.
    "deep-water": [("part.bell.on", "intent.1")],
    # Two lanes; rowlock listens to one channel.
    "tied-oars": [("part.hat.on", "part.clink.on")],
    # Without the intent the ribbon may play the drone, and tiller's notes need not come past fogbank.
    "open-ears": [("part.bass.on", "part.drone.on", "intent.1")],
    # TRS of two wirings.
    "wrong-wires": [("part.bell.on",)],
    # Seventeen lanes, sixteen channels. Elsewhere than in shoal no part can live, so where is not in it.
    "seventeen-sails": [tuple(f"part.{name}" for name in SAILS)],
    # Two sides for the pad, none left for the lead.
    "wide-and-alone": [("part.pad.on", "part.lead.on", "intent.1", "intent.2")],
    # The choir obeys wherever it can live and obey; the strings would do so only on barge.
    "turned-pages": [("part.choir", "part.strings.on", "intent.1", "intent.2")],
    # No strip has the third lane, and no engine that can be the bass.
    "two-hands": [("part.bass", "intent.2", "intent.3")],
    # No ducking anywhere, so neither place matters.
    "dry-dock": [("part.knock", "part.drone", "intent.1")],
    # No box offers that word.
    "loose-letter": [("part.bell", "intent.2")],
    # Nothing but the click reaches the ears; each part alone is too much.
    "deaf-lookout": [("part.lead",), ("part.drone",)],
    # Rowlock as in tied oars; limpet as in deep water, and nothing else on the table goes up at all.
    "double-leak": [("part.hat.on", "part.clink.on"), ("part.bell", "intent.1")],
    # Three lanes to dinghy, two channels.
    "few-lamps": [("part.low.on", "part.middle.on", "part.high.on", "intent.1")],
    # Both sides have to be brought in, over two leads; each part alone needs that.
    "one-rope-two-ears": [("part.bass", MONO, "mains"), ("part.hiss", MONO, "mains")],
    # Two strips to fill: with a splitter, which the drawer does not have, or with two plain leads.
    "missing-splice": [("part.lead.on", "part.drone.on", "intent.1", MONO)],
}


@pytest.mark.parametrize("name", EXPECTED)
def test_an_impossible_jam_has_just_these_conflicts(name: str) -> None:
    found = conflicts(Trial(read_jam(IMPOSSIBLE / f"{name}.toml"), Clock(None)))
    assert found.all
    assert all(conflict.minimal for conflict in found.conflicts)
    statements = [conflict.statements for conflict in found.conflicts]
    assert sorted(statements) == sorted(EXPECTED[name])
    assert [len(ids) for ids in statements] == sorted(len(ids) for ids in statements)


def test_every_impossible_jam_is_here() -> None:
    assert sorted(EXPECTED) == sorted(path.stem for path in IMPOSSIBLE.glob("*.toml"))
