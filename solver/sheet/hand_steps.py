"""What hands do for a line check, because no MIDI file can."""

from collections.abc import Iterator

from solver.flow.settings import MOVED, settings
from solver.flow.wording import counted, listing
from solver.jam.intents import Program
from solver.jam.jam import Jam
from solver.plans import Plan, Setting
from solver.sheet.cells import NO_BREAK
from solver.sheet.line_check import LineCheck
from solver.sheet.words import shift_words

LOUD = 100
"""What the file sets the volume to, controller 7: the start value of General MIDI 2 (3.3.4), 4 dB below full."""

_KINDS = {
    "channel": ("channel", "channels"),
    "outlet": ("outlet", "outlets"),
    "pan": ("pan of a strip", "pans of strips"),
    "level": ("level to zero", "levels to zero"),
    "amount": ("amount", "amounts"),
}


def hand_steps(jam: Jam, plan: Plan) -> tuple[str, ...]:
    """What has to be done by hand before and beside the file of a line check: plain sentences, in order.

    Args:
        jam: What the plan is for.
        plan: Any plan.
    """
    check = LineCheck(jam, plan)
    return (
        *_set_first(jam, plan),
        *_pans(check),
        *_shifts(check),
        *_sounds(jam, check),
        *_player(check),
        *_not_played(check),
    )


def _set_first(jam: Jam, plan: Plan) -> Iterator[str]:
    """The settings that no message of the file sets, counted by box."""
    every = settings(jam, plan)
    for box in jam.boxes:
        kinds = [_kind(setting) for setting in every if setting.box == box]
        said = [counted(kinds.count(kind), *words) for kind, words in _KINDS.items() if kind in kinds]
        if said:
            yield f"On {box}, set first by hand, as the plan says: {listing(said)}."


def _kind(setting: Setting) -> str:
    """Which of the kinds a setting is; none for a shift, and for the pan of an engine."""
    if setting.what == "pan":
        return "pan" if setting.of == "strip" else ""
    if setting.what in MOVED:
        return setting.what
    return "" if setting.what == "shift" else "amount"


def _pans(check: LineCheck) -> Iterator[str]:
    for channel in dict.fromkeys(one.channel for one in check.checks):
        if check.pan(channel) is None:
            there = [one.part for one in check.checks if one.channel == channel]
            said = listing(f"{check.followed.homes[part]} {check.followed.parts[part].pan}" for part in there)
            yield f"Pan by hand: {said}. They share channel {channel}, where one message would move them all."


def _shifts(check: LineCheck) -> Iterator[str]:
    for part in check.parts:
        home = check.followed.homes[part]
        shift = check.followed.notes.shift(home)
        if shift:
            playing = check.followed.notes.playing[check.followed.tracks[part]]
            others = [other for other in playing if other != part]
            why = f"it shares its channel with {listing(others)}" if others else "not every box obeys tuning by MIDI"
            yield f"Set the shift of {home} to {shift_words(shift).replace(NO_BREAK, ' ')} by hand: {why}."


def _sounds(jam: Jam, check: LineCheck) -> Iterator[str]:
    by_program = jam.parts_of(Program)
    for part in check.parts:
        sounds = jam.parts[part].sounds
        if part in by_program:
            yield f"Choose the first sound of {part} by hand: a jam names no program numbers, so the file has none."
        elif sounds:
            yield f"Choose the first sound of {part} by hand: {sounds[0]}."


def _player(check: LineCheck) -> Iterator[str]:
    for place in dict.fromkeys(check.places.values()):
        parts = listing(one.part for one, at in check.places.items() if at == place)
        yield (
            f"Turn the volume down, play the file in the place of {place}, over the cables that leave it, and turn up "
            f"slowly: it checks {parts}."
        )
    channels = dict.fromkeys(one.channel for one in check.checks)
    if channels:
        said = f"channel{'s' if len(channels) > 1 else ''} {listing(channels)}"
        yield f"The file sets the volume on {said} to {LOUD} of 127; set it back afterwards."


def _not_played(check: LineCheck) -> Iterator[str]:
    for part in check.parts:
        if not check.heard(part):
            yield f"{part} is silent in this plan, so nothing plays it: hardpan trace says where it stops."
        elif check.inside(part):
            track = check.followed.tracks[part]
            yield f"Play {part} by hand, on track {track}: no file reaches it. Hear it on {check.where(part)}."
