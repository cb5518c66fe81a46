"""In no drawing does anything lie on anything else, and every cable leads from its jacks to its jacks."""

import re
from collections.abc import Callable
from xml.etree import ElementTree as Xml

import pytest

from solver.sheet.drawing import drawing
from tests.sheet.drawing import faults
from tests.sheet.drawing.rigs import NAMES, rig
from tests.sheet.drawing.seen import SVG, seen

Spoil = Callable[[Xml.Element], None]


@pytest.mark.parametrize("name", NAMES)
def test_every_promise_is_kept(name: str) -> None:
    jam, plan = rig(name)
    found = seen(Xml.fromstring(drawing(jam, plan)))
    assert list(found.boxes) and len(found.labels) > len(found.boxes)
    for promise in faults.PROMISES:
        assert list(promise(found, plan)) == [], promise.__doc__


@pytest.mark.parametrize("name", ["low-tide", "three-rivers", "ten boxes"])
def test_without_its_heading_it_is_as_sound_and_less_high(name: str) -> None:
    jam, plan = rig(name)
    whole, bare = (seen(Xml.fromstring(drawing(jam, plan, heading=heading))) for heading in (True, False))
    assert bare.page.bottom < whole.page.bottom and bare.page.right == whole.page.right
    assert not any(list(promise(bare, plan)) for promise in faults.PROMISES)


@pytest.mark.parametrize(
    ("name", "widest"), [("low-tide", 640), ("harbour-lights", 640), ("rain-on-tin", 640), ("three-rivers", 900)]
)
def test_a_small_jam_is_narrow_enough_for_a_phone(name: str, widest: int) -> None:
    svg = Xml.fromstring(drawing(*rig(name)))
    assert float(svg.attrib["viewBox"].split()[2]) <= widest
    assert not {"width", "height"} & set(svg.attrib)
    assert min(float(text.attrib["font-size"]) for text in svg.iter(f"{SVG}text")) >= 13


def _group(svg: Xml.Element, key: str, place: int = 0) -> Xml.Element:
    return [group for group in svg.iter(f"{SVG}g") if f"data-{key}" in group.attrib][place]


def _shift(key: str, by: str, place: int = 0) -> Spoil:
    def spoil(svg: Xml.Element) -> None:
        _group(svg, key, place).set("transform", f"translate({by})")

    return spoil


def _leave_out(key: str) -> Spoil:
    def spoil(svg: Xml.Element) -> None:
        gone = _group(svg, key)
        next(group for group in svg.iter(f"{SVG}g") if gone in group).remove(gone)

    return spoil


def _reroute(svg: Xml.Element) -> None:
    """Lead the first cable through the height of the second."""
    one, other = (_group(svg, "cable", place).findall(f"{SVG}path") for place in (0, 1))
    for path, near in zip(one, other, strict=True):
        path.set("d", near.attrib["d"])


def _stretch(svg: Xml.Element) -> None:
    """Let every level line begin at the left edge of the page."""
    for path in svg.iter(f"{SVG}path"):
        path.set("d", re.sub(r"M[\d.]+,", "M0,", path.attrib["d"]))


@pytest.mark.parametrize(
    ("spoil", "broken"),
    [
        (_leave_out("cable"), faults.not_each_cable_once),
        (_shift("cable", "0 20"), faults.not_on_its_jacks),
        (_shift("plug", "0 3"), faults.not_on_its_jacks),
        (_reroute, faults.not_on_its_jacks),
        (_leave_out("plug"), faults.not_on_its_jacks),
        (_leave_out("jack"), faults.not_on_its_jacks),
        (_stretch, faults.line_through_a_box),
        (_shift("box", "100 0", 1), faults.line_through_a_box),
        (_reroute, faults.cable_on_a_cable),
        (_shift("carries", "0 13"), faults.label_on_a_label),
        (_shift("carries", "30 0", 2), faults.label_on_a_foreign_box),
        (_shift("jack", "140 0", 1), faults.label_on_a_foreign_box),
        (_shift("carries", "30 14"), faults.line_through_a_label),
        (_shift("box", "400 0", 1), faults.box_on_a_box),
        (_shift("heading", "400 0"), faults.off_the_page),
    ],
)
def test_a_spoilt_drawing_is_found_out(spoil: Spoil, broken: Callable[..., faults.Faults]) -> None:
    """The checks above can fail: each sees what it is there to see."""
    jam, plan = rig("low-tide")
    svg = Xml.fromstring(drawing(jam, plan))
    assert not list(broken(seen(svg), plan))
    spoil(svg)
    assert list(broken(seen(svg), plan))
