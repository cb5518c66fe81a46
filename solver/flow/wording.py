"""How lists, counts and intents are worded in sentences."""

from collections.abc import Iterable

from solver.jam.intents import Avoid, Keep, Wish


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


def intent_words(intent: Wish) -> str:
    """What an intent is about, in a few words."""
    if intent.name is not None:
        return f'"{intent.name}"'
    if isinstance(intent, Keep):
        return f"what you keep of {intent.keep.part or 'a cable'}"
    if isinstance(intent, Avoid):
        return f"what you avoid, {some((*intent.avoid.channels, *intent.avoid.jacks, *intent.avoid.ports))}"
    words = {
        "layer": "one track for",
        "separate": "strips of their own for",
        "treat": "the amounts of",
        "stereo": "both sides of",
        "play": "who plays",
        "match": "the match of",
        "clock": "the clock of",
        "program": "program changes of",
    }
    return f"{words[intent.kind]} {listing(getattr(intent, intent.kind))}"
