"""The name that was meant by one that stands for nothing."""

import pytest

from solver.gear.nearest import nearest

KNOWN = ["tiller", "barge/MAIN", "four-engine-module", "MAIN 2", "intent.1", "intent.4", "Été"]


@pytest.mark.parametrize(
    ("name", "meant"),
    [
        ("tilller", "tiller"),
        ("TILL", "tiller"),
        ("main", "MAIN 2"),  # the beginning of a name comes before a name without its box
        ("MAIN 3", "MAIN 2"),
        ("module", "four-engine-module"),
        ("ÉTE", "Été"),
        ("intent.9", "intent.4"),  # of several that are spelled as much alike, the last
        ("od", None),
        ("zebra", None),
        ("", None),
        ("tiller", None),
        ("x" * 201, None),
    ],
)
def test_what_was_meant(name: str, meant: str | None) -> None:
    assert nearest(name, KNOWN) == meant


def test_a_name_without_its_box() -> None:
    assert nearest("main", ["quay", "harbourmaster/MAIN"]) == "harbourmaster/MAIN"
    assert nearest("L", ["quay", "harbourmaster/L"]) == "harbourmaster/L"
    assert nearest("", ["quay/"]) is None
