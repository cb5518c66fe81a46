"""The name that was meant by one that stands for nothing."""

from collections.abc import Sequence

_MOST_COMPARED = 2000
_NEAR = 60


def nearest(name: str, known: Sequence[str]) -> str | None:
    """The known name that ``name`` is nearest to, upper and lower case alike, or None when none is near.

    A name without its box ("MAIN") is near the one with it ("barge/MAIN").
    """
    if name in known or len(name) > 200:
        return None
    from rapidfuzz import fuzz, process  # noqa: PLC0415  it is needed only where something is wrong

    folded: dict[str, str] = {}
    for candidate in known[:_MOST_COMPARED]:
        folded.setdefault(candidate.casefold(), candidate)
    longer = [full for low, full in folded.items() if len(name) > 2 and low.startswith(name.casefold())]
    if longer:
        return longer[0]
    near = process.extract(name.casefold(), folded.keys(), scorer=fuzz.ratio, score_cutoff=_NEAR, limit=None)
    if near:
        return folded[max((score, low) for low, score, _ in near)[1]]
    return next((full for low, full in folded.items() if low.partition("/")[2] == name.casefold() != ""), None)
