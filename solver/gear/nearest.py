"""The name that was meant by one that stands for nothing."""

from collections.abc import Sequence

_MOST_COMPARED = 2000
_NEAR = 60
_SHORTEST_PIECE = 3


def nearest(name: str, known: Sequence[str]) -> str | None:
    """The known name that ``name`` is nearest to, upper and lower case alike, or None when none is near.

    The beginning of a name is nearest, then what is spelled much like it, then a name without its box ("MAIN" for
    "barge/MAIN"), then any piece of a name.
    """
    if name in known or len(name) > 200:
        return None
    from rapidfuzz import fuzz, process  # noqa: PLC0415  it is needed only where something is wrong

    low, folded = name.casefold(), dict[str, str]()
    for candidate in known[:_MOST_COMPARED]:
        folded.setdefault(candidate.casefold(), candidate)
    pieces = [other for other in folded if len(low) >= _SHORTEST_PIECE and low in other]
    alike = process.extract(low, folded.keys(), scorer=fuzz.ratio, score_cutoff=_NEAR, limit=None)
    in_turn = (
        *(other for other in pieces if other.startswith(low)),
        *(other for _, other in sorted(((score, other) for other, score, _ in alike), reverse=True)[:1]),
        *(other for other in folded if low != "" and other.partition("/")[2] == low),
        *pieces,
    )
    return next((folded[other] for other in in_turn), None)
