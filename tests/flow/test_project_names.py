"""Project names: short enough for each screen, no two alike on a box, and of one jam all alike."""

import string

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import solver
from solver.flow.completed import completed_set
from solver.flow.project_names import UNTOLD, project_names
from solver.flow.shortening import fitting
from solver.jam.jam import Jam
from solver.outcome import PlannedSet
from solver.reading import read_set
from tests.building import box, jam, named
from tests.showing import SCENARIOS

SHOWN = set(string.ascii_uppercase + string.digits + " -")
BOXES = ("dock", "reef", "mole")


def titled(title: str, *lengths: int | None, **keys: str) -> Jam:
    """A jam on boxes whose screens take names of these lengths."""
    boxes = {
        name: box(name, out=[named("MAIN", left="L", right="R")], **({"name_length": length} if length else {}))
        for name, length in zip(BOXES, lengths, strict=False)
    }
    return jam(boxes, (), title=title, recall=keys)


def names(*jams: Jam) -> list[dict[str, str]]:
    """The names of jams, in their order."""
    return list(project_names({str(place): one for place, one in enumerate(jams)}).values())


@pytest.mark.parametrize(
    ("title", "length", "name"),
    [
        ("Low Tide", 8, "LOW TIDE"),
        ("Low Tide", 7, "LOW TID"),
        ("Low Tide", 6, "LOW TD"),
        ("Low Tide", 4, "LWTD"),
        ("Low Tide", 2, "LT"),
        ("Low Tide", 1, "L"),
        ("Harbour Lights", 12, "HARBOU LIGHT"),
        ("The Long Shadows of Autumn", 16, "LONG SHADO AUTUM"),
        ("The The", 6, "THE TH"),
        ("Half-Light - Part 12", 16, "HALF-LIGH PAR 12"),
        ("Half-Light - Part 12", 5, "HLP12"),
        ("1984", 3, "198"),
        ("Don't & Won't", 20, "DONT AND WONT"),
        ("  straße  ærø, Łódź!", 20, "STRASSE AERO LODZ"),
        ("Þing ½", 20, "THING 1 2"),
        ("٣ Rivers", 20, "3 RIVERS"),
        ("Прилив", 20, "JAM"),
        ("Прилив 2", 20, "JAM 2"),
        ("!", 2, "JM"),
    ],
)
def test_titles_as_screens_show_them(title: str, length: int, name: str) -> None:
    assert fitting(title, length) == name


def test_a_jam_has_one_name_as_short_as_each_screen_needs_it() -> None:
    assert names(titled("Harbour Lights", 14, 10, None)) == [{"dock": "HARBOUR LIGHTS", "reef": "HARBO LIGH"}]


def test_a_box_with_a_slot_has_a_name_though_its_screen_is_not_told_of() -> None:
    ((name,),) = (found.values() for found in names(titled("Low Tide at the Old Harbour", None, dock="7")))
    assert len(name) <= UNTOLD
    assert name == "LOW TIDE OLD HAR"


def test_jams_of_one_name_are_numbered_alike_on_all_boxes() -> None:
    assert names(titled("Harbour Lights", 14, 8), titled("Harbour Lightship", 20, 8), titled("Low Tide", 14, 8)) == [
        {"dock": "HARBOUR LIGHTS", "reef": "HARB LIG"},
        {"dock": "HARBOUR LIGHTSHIP 2", "reef": "HAR LG 2"},
        {"dock": "LOW TIDE", "reef": "LOW TIDE"},
    ]


def test_names_in_use_stay_and_are_not_given_again() -> None:
    jams = {"a": titled("Low Tide", 10, 10), "b": titled("Low Tide", 10, 10)}
    assert project_names(jams, {"b": {"dock": "Low Tide"}}) == {
        "a": {"dock": "LOW TIDE 2", "reef": "LOW TIDE 2"},
        "b": {"dock": "Low Tide", "reef": "LOW TIDE"},
    }


def test_a_set_s_plan_says_the_names() -> None:
    of = read_set(SCENARIOS / "sets" / "first-watch.toml")
    planned = solver.plan(of)
    assert isinstance(planned, PlannedSet)
    saved = planned.best.jams["bells/second.toml"].to_json()["recall"]
    assert saved == {
        "capstan": {"slot": "bank A, 2", "name": "SECOND BELL"},
        "barge": {"slot": "project, 2", "name": "SECOND BELL"},
    }


def test_a_set_s_plan_without_names_is_completed_with_them() -> None:
    of = read_set(SCENARIOS / "sets" / "first-watch.toml")
    planned = solver.plan(of)
    assert isinstance(planned, PlannedSet)
    bare = {file: one.model_copy(update={"recall": {}}) for file, one in planned.best.jams.items()}
    assert completed_set(of, planned.best.model_copy(update={"jams": bare})) == planned.best


TITLES = st.text(min_size=1, max_size=40) | st.sampled_from(["Low Tide", "Low Tide 2", "Low Tidings", "a", "Прилив"])
LENGTHS = st.integers(2, 30) | st.none()


@settings(max_examples=200, deadline=None, derandomize=True)
@given(st.lists(TITLES, min_size=1, max_size=40), st.tuples(LENGTHS, LENGTHS, LENGTHS))
def test_whatever_the_titles_are(titles: list[str], lengths: tuple[int | None, ...]) -> None:
    found = names(*(titled(title, *lengths, mole="1") for title in titles))
    for of_jam in found:
        assert set(of_jam) == {box for box, length in zip(BOXES, lengths, strict=True) if length or box == "mole"}
        for where, length in zip(BOXES, lengths, strict=True):
            if where in of_jam:
                name = of_jam[where]
                assert 1 <= len(name) <= (length or UNTOLD)
                assert name == name.strip()
                assert set(name) <= SHOWN
        shortest, *longer = sorted((name.replace(" ", "") for name in of_jam.values()), key=len)
        assert all(is_within(shortest, other) for other in longer)
    for where in found[0]:
        on_box = [of_jam[where] for of_jam in found]
        assert len(set(on_box)) == len(on_box)
    assert names(*(titled(title, *lengths, mole="1") for title in titles)) == found


def is_within(short: str, long: str) -> bool:
    """Whether the letters of one text stand in another one in their order."""
    letters = iter(long)
    return all(letter in letters for letter in short)


def test_a_screen_of_one_letter_tells_36_jams_apart_and_no_more() -> None:
    found = names(*(titled("Low Tide", 1, 10) for _ in range(40)))
    assert len({of_jam["dock"] for of_jam in found[:35]}) == 35
    assert all(len(of_jam["dock"]) == 1 for of_jam in found)
    assert len({of_jam["reef"] for of_jam in found}) == 40
