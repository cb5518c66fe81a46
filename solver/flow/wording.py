"""How lists are worded in sentences."""

from collections.abc import Iterable


def listing(names: Iterable[object]) -> str:
    """Names as a sentence lists them: ``a``, ``a and b``, ``a, b and c``; "nothing" for none."""
    words = [str(name) for name in names]
    if len(words) < 2:
        return words[0] if words else "nothing"
    return f"{', '.join(words[:-1])} and {words[-1]}"


def some(names: Iterable[object], most: int = 3) -> str:
    """The first names of a list, and how many more there are."""
    words = [str(name) for name in names]
    return listing(words if len(words) <= most + 1 else [*words[:most], f"{len(words) - most} more"])


def counted(number: int, one: str, many: str = "") -> str:
    """``1 cable``, ``2 cables``, ``no cable``."""
    if number == 0:
        return f"no {one}"
    return f"{number} {one if number == 1 else many or one + 's'}"
