"""Where a part goes silent, in words."""

from solver.flow.stops import Cause, Stop
from solver.flow.wording import listing

_WORDS: dict[Cause, str] = {
    "not in the plan": "{at} is not in the plan.",
    "not sent": "Its track {at} sends nothing out.",
    "not inside": "Its track {at} stands in the same box as {all}, but does not play that engine.",
    "no port": "Its notes do not leave {at}: no port of that box sends them.",
    "no cable": "Its notes come as far as {at}: no cable is plugged there.",
    "wrong cable": "It comes as far as {at}: {all}.",
    "no way on": "Its notes come as far as {at}: nothing leads on to {all}.",
    "other channel": "Its notes come to the box of {at}, on {all}.",
    "level at zero": "Its notes play {at}, whose level is at zero.",
    "no plug": "Its sound comes as far as {at}: nothing is plugged into {all}.",
    "no strip": "Its sound comes as far as {at}: no strip takes it in.",
    "no outlet": "Its sound comes as far as {at}: that strip goes to no outlet.",
    "round": "Its sound goes round through {at} and does not leave the loop.",
}


def stop_words(stop: Stop) -> str:
    """The last point where a part is present, and what stops it there."""
    return _WORDS[stop.cause].format(at=stop.at, all=_about(stop))


def _about(stop: Stop) -> str:
    if stop.cause == "other channel":
        sent, listens = stop.about
        heard = {"off": "that engine is off"}.get(listens, f"that engine listens to channel {listens}")
        return f"channel {sent}; {heard}"
    if stop.cause == "wrong cable":
        cable, fault = stop.about
        return f"{cable} does not carry it, {fault}"
    return listing(stop.about)
