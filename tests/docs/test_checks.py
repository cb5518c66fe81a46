"""docs/checks.md tells every check against the world outside, and no other."""

from tests.outside.__main__ import PAGE, checks, page


def test_every_check_says_its_source() -> None:
    assert [place for place, check in checks().items() if check is None] == []


def test_every_check_is_told() -> None:
    assert PAGE.read_text("utf-8") == page()
