"""What is told of wishes and cables: the text to the letter, the data, and a drawing that any reader of XML takes."""

import json
from itertools import pairwise
from pathlib import Path
from xml.etree import ElementTree as Xml

from solver.jam.jam import Jam
from solver.reading import line_finder, read_jam
from solver.search.clock import Clock
from solver.sheet.cells import width_of
from solver.sheet.edits import Source
from solver.sheet.frontier import frontier_data, frontier_svg, frontier_text
from solver.whatif.frontier import Frontier, frontier
from tests.building import dock_and_reef
from tests.showing import SCENARIOS

GOLDEN = Path(__file__).parent / "golden"
SVG = "{http://www.w3.org/2000/svg}"
ODD = "<b>&\"'\uffff\x00\x1b \U0001f3b9 </svg>"


def _nothing() -> None:
    """Say nothing."""


def _of(name: str) -> tuple[Jam, Frontier, Source]:
    file = SCENARIOS / f"{name}.toml"
    jam = read_jam(file)
    return jam, frontier(jam, Clock(None), _nothing), Source(f"scenarios/{name}.toml", line_finder(file))


def _heavy(jam: Jam, *weights: int) -> Jam:
    pairs = zip(jam.intents, weights, strict=True)
    return jam.changed(intents=tuple(intent.model_copy(update={"weight": weight}) for intent, weight in pairs))


def _odd() -> tuple[Jam, Frontier]:
    """A jam with odd names whose two wishes do not go together on one lead."""
    jam = dock_and_reef(
        {"treat": ["bass"], "with": {"reverb": 10}, "name": ODD},
        {"treat": ["arp"], "with": {"reverb": 90}, "name": ODD, "weight": 2},
        parts={"bass": {"on": "reef"}, "arp": {"on": "reef"}},
        title=ODD,
        cables={"6.35 mono": 1, "din": 1},
    )
    return jam, frontier(jam, Clock(None), _nothing)


def test_slow_swell_reads_as_it_did() -> None:
    assert frontier_text(*_of("slow-swell"), 80) == (GOLDEN / "slow-swell.txt").read_text("utf-8")


def test_weights_are_told_where_there_are_any() -> None:
    jam, _, source = _of("slow-swell")
    jam = _heavy(jam, 1, 2, 7)
    text = frontier_text(jam, frontier(jam, Clock(None), _nothing), source, 80)
    assert text == (GOLDEN / "slow-swell-weighed.txt").read_text("utf-8")


def test_what_cannot_be_had_at_all() -> None:
    text = frontier_text(*_of("short-rope"), 80)
    assert "Both wishes together cannot be had, with however many cables. The most that can" in text
    text = frontier_text(*_of("impossible/lost-lead"), 100)
    assert "Impossible, proved: even without any wish, the parts of Lost Lead cannot be had together." in text
    text = frontier_text(*_of("impossible/missing-splice"), 80)
    assert "The only wish cannot be had, with however many cables. Without it, the parts\ntake 2 cables." in text


def test_nothing_to_save() -> None:
    text = frontier_text(*_of("harbour-lights"), 80)
    assert "All 3 wishes together take 4 cables, and the parts alone take as many" in text
    assert "There is no wish; the parts take 2 cables." in frontier_text(*_of("one-ear-open"), 80)


def test_counts_between_are_told() -> None:
    between = "A number of cables that is not in the table"
    assert between in frontier_text(*_of("confluence"), 80)
    assert between not in frontier_text(*_of("slow-swell"), 80)


def test_what_is_not_decided_is_said_to_be() -> None:
    jam, whole, source = _of("slow-swell")
    last = whole.points[-1]
    text = frontier_text(jam, Frontier((last._replace(proved=False),), 3, done=False), source, 80)
    assert "All 3 wishes together can be had with 4 cables.\n" in text
    assert "Not decided in the time given: what can be met with fewer than 4 cables." in text
    assert "roved" not in text
    text = frontier_text(jam, Frontier((whole.points[1]._replace(proved=False), last), 3, done=False), source, 80)
    assert "All 3 wishes together take 4 cables.\n" in text
    assert "Proved for all rows but the first" in text
    text = frontier_text(jam, Frontier((), 3, done=False), source, 80)
    assert "Not decided" in text and "--time-limit" in text and "roved" not in text


def test_odd_names_stay_on_their_lines() -> None:
    jam, found = _odd()
    text = frontier_text(jam, found, Source("jam.toml", lambda _: None), 80)
    assert all(width_of(line) <= 80 and line == line.rstrip() for line in text.splitlines())
    assert not {"\x00", "\x1b"} & set(text)


def test_the_data_has_all_that_the_text_has() -> None:
    jam, found, _ = _of("slow-swell")
    data = json.loads(json.dumps(frontier_data(jam, found)))
    points = data.pop("points")
    assert data == {"title": "Slow Swell", "wishes": 3, "weight": 3, "done": True}
    assert [len(point.pop("plan")["cables"]) for point in points] == [2, 3, 4]
    bass = "the amounts of bass"
    assert points[:2] == [
        {
            "cables": 2,
            "wishes": 1,
            "weight": 1,
            "left_out": ["intent.1", "intent.3"],
            "says": ["both sides of pad", bass],
            "proved": True,
        },
        {"cables": 3, "wishes": 2, "weight": 2, "left_out": ["intent.3"], "says": [bass], "proved": True},
    ]


def test_the_drawing_has_a_step_for_each_point() -> None:
    jam, found, _ = _of("slow-swell")
    svg = Xml.fromstring(frontier_svg(jam, found))
    line = svg.find(f"{SVG}polyline")
    assert line is not None
    corners = [tuple(map(float, corner.split(","))) for corner in line.attrib["points"].split()]
    dots = [(float(dot.attrib["cx"]), float(dot.attrib["cy"])) for dot in svg.iter(f"{SVG}circle")]
    assert len(dots) == 3
    assert set(dots) <= set(corners)
    assert dots == sorted(dots) and [y for _, y in dots] == sorted((y for _, y in dots), reverse=True)
    assert all(x == other or y == next_y for (x, y), (other, next_y) in pairwise(corners))
    assert [text.text for text in svg.iter(f"{SVG}text")] == [
        *("2", "3", "4"),
        *("0", "1", "2", "3"),
        *("cables", "wishes met"),
        *("1", "2", "3"),
    ]


def test_the_drawing_tells_itself_and_needs_nothing_else() -> None:
    jam, found, _ = _of("slow-swell")
    text = frontier_svg(jam, found)
    svg = Xml.fromstring(text)
    named = {element.attrib["id"]: element.text for element in svg if "id" in element.attrib}
    assert svg.attrib["aria-labelledby"].split() == list(named)
    assert named["wishes-title"] == "Slow Swell: wishes and cables"
    told = "3 cables: 2 of 3 wishes; left out: the amounts of bass (intent.3)."
    assert told in str(named["wishes-desc"])
    assert told in [title.text for title in svg.iter(f"{SVG}title")]
    assert text.count("http") == 1 and "script" not in text and "url(" not in text


def test_odd_names_leave_the_drawing_whole() -> None:
    jam, found = _odd()
    assert len(found.points) == 1 and found.points[0].left_out == (0,)
    text = frontier_svg(jam, found)
    svg = Xml.fromstring(text.encode("utf-8"))
    (title,) = [element.text for element in svg if element.tag == f"{SVG}title"]
    assert title == "<b>&\"'\ufffd\ufffd\ufffd \U0001f3b9 </svg>: wishes and cables"
    assert {element.tag.removeprefix(SVG) for element in svg.iter()} == {
        *("svg", "title", "desc", "path", "text", "polyline", "circle")
    }


def test_nothing_known_is_a_drawing_too() -> None:
    jam, _, _ = _of("impossible/lost-lead")
    assert Xml.fromstring(frontier_svg(jam, Frontier((), 2, done=False))).find(f"{SVG}polyline") is None
