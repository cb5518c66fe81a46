"""Rules of sound: each refuses by itself what no goal would choose, or what a cut refuses too."""

from typing import Any

import pytest

from solver.gear.box import Box
from solver.gear.words import Spot
from solver.jam.jam import Jam
from solver.search.choices import Choices
from solver.search.model import Lit
from tests.building import Table, box, desk, dock_and_reef, jam, module, named
from tests.search.rules_alone import allowed, strip

EFFECTS: Table = {"offers": ["ducking", "reverb"], "key": ["PAD", "RIM"]}
DRY: Table = {"offers": [], "key": []}
KICK, RIM = {"on": "dock/PAD"}, {"on": "dock/RIM"}
ONE = strip("dock/IN 1")


def _dock(*strips: Table, **tables: Any) -> Box:
    """A leader with two pads that are keys, and the strips given."""
    own = [named("PADS", channels=[], plays="PAD"), named("RIMS", channels=[], plays="RIM")]
    plain: dict[str, Any] = {
        "strip": strips,
        "engine": [named("PAD", channels=[]), named("RIM", channels=[])],
        "track": [*own, named("EXT 1", channel=1), named("EXT 2", channel=2)],
    }
    return desk(**(plain | tables))


def _strips(left: Table | None = None, right: Table | None = None) -> tuple[Table, Table]:
    """A strip for each side of the inlet; they are not alike, so each keeps its name."""
    one = named("IN 1", from_="LINE/left", **EFFECTS) | (left or {})
    return one, named("IN 2", from_="LINE/right", **EFFECTS) | {"pan": "sides"} | (right or {})


def _kept(source: str, to: str) -> Table:
    return {"keep": {"cable": [source, to]}}


def _treated(part: str, key: str | None = None, **amounts: int) -> Table:
    return {"treat": [part], "with": amounts} | ({"key": key} if key is not None else {})


def _in_strip(part: str, name: str) -> Table:
    return {"keep": {"part": part, "strip": name}}


def test_an_amount_only_where_a_part_wants_it() -> None:
    bass = dock_and_reef(_treated("bass", reverb=20), dock=_dock(*_strips()), parts={"bass": {"on": "reef"}})
    amount = 20

    def set_at(choices: Choices, treats: bool) -> list[Lit]:
        enters = choices.enters("bass", ONE.spot)
        return [choices.amounts(ONE, "reverb")[amount], enters if treats else -enters]

    assert allowed(bass, lambda choices: set_at(choices, True))
    assert not allowed(bass, lambda choices: set_at(choices, False))


def _beyond(*intents: Table) -> Jam:
    """The bass goes by one outlet to the dock and by its mirror into the cove, where the arp is treated on its way.

    The right side of the cove's outlet is not plugged, so nobody hears the bass from there.
    """
    mirrored = [named("MAIN", mono="MAIN"), named("PHONES", mono="PHONES", mirrors="MAIN")]
    sound: Table = {"channels": [1, 2]}
    table = {
        "dock": _dock(*_strips(DRY, DRY)),
        "reef": box("Reef", out=mirrored, engine=[named("E", **sound)], midi=[named("IN", way="in")]),
        "gull": box("Gull", out=[named("MAIN", mono="MAIN")], engine=[named("E")], track=[named("T", plays="E")]),
        "cove": box(
            "Cove",
            out=[named("MAIN", left="L", right="R")],
            in_=[named("LINE", left="IN L", right="IN R")],
            strip=[named("S", from_="LINE", offers=["reverb"])],
        ),
    }
    cables = [
        _kept("reef/MAIN", "dock/IN 1"),
        _kept("reef/PHONES", "cove/IN R"),
        _kept("gull/MAIN", "cove/IN L"),
        _kept("cove/L", "dock/IN 2"),
        {"avoid": {"jacks": ["cove/R"]}},
    ]
    parts = {"bass": {"on": "reef"}, "arp": {"on": "gull"}}
    return jam(table, parts, {"play": ["arp"], "from": "gull"}, *cables, *intents)


def test_an_amount_is_had_only_where_it_is_heard() -> None:
    assert allowed(_beyond(_treated("arp", reverb=20)))
    assert not allowed(_beyond(_treated("arp", reverb=20), _treated("bass", reverb=20)))


def _through_one_strip(bass: str, arp: str) -> Jam:
    """Bass and arp come from two boxes over one strip of the leader, each ducked by a key."""
    middle = box(
        "Cove",
        out=[named("MAIN", mono="MAIN")],
        in_=[named("LINE", mono="LINE")],
        strip=[named("S", from_="LINE")],
        engine=[named("E")],
        midi=[named("IN", way="in"), named("THRU", way="thru", copies="IN")],
    )
    reef = box("Reef", out=[named("MAIN", mono="MAIN")], engine=[named("E", channel=2)], midi=[named("IN", way="in")])
    dock = _dock(named("S", from_="LINE", **EFFECTS), in_=[named("LINE", mono="LINE")])
    parts = {"kick": KICK, "rim": RIM, "bass": {"on": "reef"}, "arp": {"on": "cove"}}
    wishes = (_treated("bass", bass, ducking=30), _treated("arp", arp, ducking=30))
    return jam({"dock": dock, "reef": reef, "cove": middle}, parts, *wishes)


def test_one_strip_has_one_key() -> None:
    assert allowed(_through_one_strip("kick", "kick"))
    assert not allowed(_through_one_strip("kick", "rim"))


def test_no_key_where_nothing_ducks() -> None:
    """The bass is ducked in the second of two strips on its way."""
    first = box(
        "Cove",
        out=[named("MAIN", mono="MAIN")],
        in_=[named("LINE", mono="LINE")],
        engine=[named("PAD", channels=[])],
        track=[named("PADS", channels=[], plays="PAD")],
        strip=[named("S", from_="LINE", offers=["ducking"], key=["PAD"])],
    )
    reef = box("Reef", out=[named("MAIN", mono="MAIN")], engine=[named("E")], midi=[named("IN", way="in")])
    dock = _dock(named("S", from_="LINE", offers=["ducking"], key=["PAD"]), in_=[named("LINE", mono="LINE")])
    parts = {"kick": {}, "bass": {"on": "reef"}}
    wishes = ({"play": ["kick"], "from": "cove"}, _treated("bass", "kick", ducking=30), _in_strip("bass", "cove/S"))
    asked = jam({"dock": dock, "cove": first, "reef": reef}, parts, *wishes)

    def keyed(choices: Choices, ducks: bool) -> list[Lit]:
        amount, passes = choices.amounts(strip("cove/S"), "ducking")[30], choices.enters("bass", Spot("cove", "S"))
        return [choices.keys(strip("cove/S"))["kick"], amount if ducks else -amount, passes]

    assert allowed(asked, lambda choices: keyed(choices, True))
    assert not allowed(asked, lambda choices: keyed(choices, False))


@pytest.mark.parametrize(("source", "fine"), [("dock/OUT L", False), ("dock/AUX", True)])
def test_no_cable_where_you_listen(source: str, fine: bool) -> None:
    dock = desk(out=[named("MAIN", left="OUT L", right="OUT R"), named("AUX", mono="AUX")])
    cove = box("Cove", in_=[named("LINE", mono="LINE")])
    assert allowed(jam({"dock": dock, "cove": cove}, ("kick",), _kept(source, "cove/LINE"))) is fine


TWO_WAYS: Table = {"to": ["MAIN", "AUX"]}


def _two_ways() -> Jam:
    outs = [named("MAIN", left="OUT L", right="OUT R"), named("AUX", mono="AUX")]
    reef = [named("MAIN", left="L", right="R"), named("AUX", mono="AUX")]
    dock = _dock(*_strips(TWO_WAYS), out=outs)
    voices = module(out=reef, engine=[named("1", **TWO_WAYS)])
    return dock_and_reef(dock=dock, reef=voices, parts={"bass": {"on": "reef"}})


def test_a_strip_goes_to_one_outlet_at_one_pan() -> None:
    main, aux = Spot("dock", "MAIN"), Spot("dock", "AUX")
    for way in (main, aux):
        assert allowed(_two_ways(), lambda choices, way=way: [choices.emits(ONE.spot, way)])  # type: ignore[misc]
    assert not allowed(_two_ways(), lambda choices: [choices.emits(ONE.spot, main), choices.emits(ONE.spot, aux)])
    assert not allowed(_two_ways(), lambda choices: [choices.pans(ONE.spot, "left"), choices.pans(ONE.spot, "right")])


def test_a_part_leaves_by_one_outlet() -> None:
    main, aux = Spot("reef", "MAIN"), Spot("reef", "AUX")
    assert allowed(_two_ways(), lambda choices: [choices.leaves("bass", aux)])
    assert not allowed(_two_ways(), lambda choices: [choices.leaves("bass", main), choices.leaves("bass", aux)])
