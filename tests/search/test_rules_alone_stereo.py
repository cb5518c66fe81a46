"""Stereo parts over mono strips: each statement of the rule refuses a way in that all others would allow."""

from collections.abc import Iterable
from typing import Any

import pytest

from solver.gear.box import Box
from solver.jam.jam import Jam
from tests.building import Table, box, desk, jam, named
from tests.search.rules_alone import allowed

EFFECTS: Table = {"offers": ["ducking", "reverb"], "key": ["PAD", "RIM"]}
STEREO = {"stereo": ["pad"]}


def _kept(source: str, to: str) -> Table:
    return {"keep": {"cable": [source, to]}}


def _dock(*strips: Table, **tables: Any) -> Box:
    """A leader with two pads that are keys, the strips given, and three tracks that send notes out."""
    own = [named("PADS", channels=[], plays="PAD"), named("RIMS", channels=[], plays="RIM")]
    plain: dict[str, Any] = {
        "strip": strips,
        "engine": [named("PAD", channels=[]), named("RIM", channels=[])],
        "track": [*own, *(named(f"EXT {n}", channel=n) for n in (1, 2, 3))],
    }
    return desk(**(plain | tables))


def _reef(**main: Any) -> Box:
    """Three engines on one stereo outlet, which a stereo jack carries too."""
    outs = [named("MAIN", left="L", right="R", **main), named("PHONES", stereo="PHONES", mirrors="MAIN")]
    return box("Reef", out=outs, engine=[named(str(n), channel=n) for n in (1, 2, 3)], midi=[named("IN", way="in")])


def _pair(*wishes: Table, stereo: Iterable[str] = ("pad",)) -> Jam:
    """Bass, arp and a stereo pad come from the reef over the two mono strips of the leader."""
    strips = [named(f"IN {n}", from_=f"LINE/{side}", **EFFECTS) for n, side in ((1, "left"), (2, "right"))]
    keys = {"kick": {"on": "dock/PAD"}, "rim": {"on": "dock/RIM"}}
    table = {"dock": _dock(*strips), "reef": _reef()}
    parts = keys | {part: {"on": "reef"} for part in ("bass", "arp", *stereo)}
    return jam(table, parts, *({"stereo": [part]} for part in stereo), *wishes, mains="mono")


def _treat(part: str, key: str | None = None, **amounts: int) -> Table:
    return {"treat": [part], "with": amounts} | ({"key": key} if key is not None else {})


def _over(part: str, name: str) -> Table:
    return {"keep": {"part": part, "strip": name}}


BASS, ARP = _over("bass", "dock/IN 1"), _over("arp", "dock/IN 2")


@pytest.mark.parametrize(
    ("wishes", "fine"),
    [
        ((), True),
        ((_treat("bass", reverb=20), _treat("arp", reverb=20)), True),
        ((_treat("bass", reverb=20),), False),
        ((_treat("arp", reverb=20),), False),
        ((_treat("bass", "kick", ducking=30), _treat("arp", "kick", ducking=30)), True),
        ((_treat("bass", "kick", ducking=30), _treat("arp", "rim", ducking=30)), False),
    ],
)
def test_the_two_strips_of_a_stereo_part_are_set_alike(wishes: tuple[Table, ...], fine: bool) -> None:
    assert allowed(_pair(BASS, ARP, *wishes)) is fine


def test_strips_that_share_no_stereo_part_may_differ() -> None:
    wishes = (_treat("bass", "kick", ducking=30, reverb=20), _treat("arp", "rim", ducking=30))
    assert allowed(_pair(BASS, ARP, *wishes, stereo=()))


@pytest.mark.parametrize("twice", [False, True])
def test_each_half_enters_one_mono_strip(twice: bool) -> None:
    sides = ("left", "right", "left") if twice else ("left", "right")
    strips = [named(f"IN {n}", from_=f"LINE/{side}") for n, side in enumerate(sides, start=1)]
    table = {"dock": _dock(*strips), "reef": _reef()}
    assert allowed(jam(table, {"pad": {"on": "reef"}}, STEREO)) is not twice


def _aside(alone: str, *cables: tuple[str, str], jacks: Iterable[str] = ()) -> Jam:
    """The pad is heard over a stereo strip of the leader, and goes into the cove too, from which nothing leads on."""
    dock = _dock(named("S", from_="FX"), in_=[named("FX", stereo="FX")])
    cove = box(
        "Cove",
        out=[named("MAIN", mono="MAIN")],
        in_=[named("LINE", left="IN L", right="IN R")],
        strip=[named("S L", from_="LINE/left"), named("S R", from_="LINE/right", pan="sides")],
    )
    wishes = [_kept("reef/PHONES", "dock/FX"), *(_kept(*ends) for ends in cables), {"avoid": {"jacks": [*jacks]}}]
    return jam({"dock": dock, "reef": _reef(alone=alone), "cove": cove}, {"pad": {"on": "reef"}}, STEREO, *wishes)


def test_both_halves_enter_mono_strips_or_none() -> None:
    both = ("reef/L", "cove/IN L"), ("reef/R", "cove/IN R")
    assert allowed(_aside("own", *both))
    assert not allowed(_aside("own", both[0], jacks=["reef/R"]))
    assert not allowed(_aside("own", both[1], jacks=["reef/L"]))


def test_no_mono_strip_takes_both_halves() -> None:
    assert not allowed(_aside("sum", ("reef/L", "cove/IN L"), jacks=["reef/R"]))
