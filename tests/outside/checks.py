"""Checks against sources outside the project. Each holds for every right value and is shown to fail for a wrong one."""

from collections.abc import Callable, Iterable, Mapping
from typing import Any, Literal, NamedTuple

import pytest

Kind = Literal["published", "theorem", "reference library", "common practice, no source", "from memory"]
"""Where a value comes from. How its text was read, if not in full, is said with its source."""

Judge = Callable[[Any], None]


class Check(NamedTuple):
    """What is checked, and against what: a row of docs/checks.md."""

    says: str
    source: str
    kind: Kind


def check(
    says: str, *, source: str, kind: Kind, right: Iterable[Any] | Mapping[str, Any], wrong: Any
) -> Callable[[Judge], Callable[..., None]]:
    """Make a test of a function that asserts something of a value.

    Args:
        says: What is checked, in one sentence.
        source: Document and section, theorem, or library; "read in a secondary text" or "abstract" where it was so.
        kind: What kind of source that is.
        right: What the source says; a mapping names each value.
        wrong: A value that the source does not say. The function has to raise AssertionError for it.
    """
    if isinstance(right, Mapping):
        values = [pytest.param(value, True, id=name) for name, value in right.items()]
    else:
        values = [pytest.param(value, True) for value in right]
    assert values, "a check without values cannot fail"

    def made(judge: Judge) -> Callable[..., None]:
        @pytest.mark.parametrize(("value", "is_right"), [*values, pytest.param(wrong, False, id="a wrong value")])
        def test(value: Any, is_right: bool) -> None:
            if is_right:
                judge(value)
            else:
                with pytest.raises(AssertionError):
                    judge(value)

        test.__name__, test.__doc__, test.__module__ = judge.__name__, judge.__doc__, judge.__module__
        test.__dict__["check"] = Check(says, source, kind)
        judged: Callable[..., None] = test
        return judged

    return made
