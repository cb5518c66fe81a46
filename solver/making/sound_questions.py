"""What is asked of the sounds and tracks of a box."""

from collections.abc import Callable

from solver.gear.words import DUCKING
from solver.making.box_words import MOST, NO_YES, effects, names, names_for, one_or_each, some, ways_out
from solver.making.questions import (
    Interview,
    NotSoError,
    Question,
    Replies,
    choose,
    listing,
    none_such,
    some_of,
    whole,
    words_only,
)

PANS = (("full", "anywhere"), ("sides", "left, centre or right, nothing between"), ("fixed", "it stays where it is"))

OWN, SHARED, FIXED, EVERY, NONE = "own", "shared", "fixed", "every", "none"
"""How engines listen."""


def sounds(replies: Replies) -> Interview:
    """Every question about engines, what they do to the inputs, and tracks."""
    yield Question(
        "engines",
        "How many sounds can be played on their own?",
        whole(0, MOST),
        "Each can have a part of its own: a drum, a voice, a slot with a channel. Files call them engines.",
        "1",
        option="--engines",
    )
    if replies["engines"]:
        yield from _engines(replies["engines"], replies)
    for n in range(1, replies["ins"] + 1):
        if replies[f"in.{n}.fader"] != "no":
            yield from _emitter(f"in.{n}", f"input {n}", replies)
    yield Question(
        "tracks",
        "How many tracks has its sequencer?",
        whole(0, MOST),
        "Lanes that play or send notes, each for itself. 0 if it has no sequencer.",
        "0",
        option="--tracks",
    )
    if replies["tracks"]:
        yield from _tracks(replies["tracks"], replies)


def _engines(many: int, replies: Replies) -> Interview:
    one = many == 1
    yield Question(
        "engine.names",
        "What is it called?" if one else "What are they called?",
        names_for(many),
        "As it is printed or shown. Several with commas between them.",
        _counted(many),
    )
    yield Question(
        "engine.sounds",
        "What kind of sound is it?" if one else "What kind of sound are they? One word for all, or one for each.",
        one_or_each(many, words_only),
        "A word of your own, such as synth, drum, organ. A part can ask for it.",
        "",
        "say nothing",
    )
    yield choose(
        "engine.channels",
        "Which MIDI channel does it listen to?" if one else "Which MIDI channels do they listen to?",
        [
            (OWN, "it can be set to any" if one else "each can be set to any"),
            *([] if one else [(SHARED, "one channel for all of them together")]),
            (FIXED, "it stays for good" if one else "each has its own for good"),
            (EVERY, "to all of them at once"),
            (NONE, "to none, only tracks of this box play it" if one else "to none, only tracks of this box play them"),
        ],
        "The menu for MIDI settings shows it, and so does the maker's manual.",
        option="--channels",
    )
    listening = replies["engine.channels"]
    if listening in (OWN, SHARED, FIXED):
        does = "listen to now" if listening == OWN else "listen to"
        yield _standing("engine.standing", 1 if listening == SHARED else many, does)
    if listening != NONE:
        words = "Can its receiving be switched off?" if one else "Can the receiving of each be switched off?"
        yield choose("engine.off", words, NO_YES, "Then no note from outside reaches it.")
    yield effects("engine.offers", "Which effects can be set for each sound alone?")
    yield from _emitter("engine", "a sound", replies)


def _counted(many: int) -> str:
    return ", ".join(map(str, range(1, many + 1)))


def _standing(key: str, many: int, does: str) -> Question:
    return Question(
        key,
        f"Which channel does it {does}?"
        if many == 1
        else f"Which channels do they {does}? One for all, or one for each.",
        some(one_or_each(many, whole(1, 16))),
        "Numbers from 1 to 16, commas between them. A plan counts what has to be moved from there.",
        _counted(many) if many <= 16 else "1",
    )


def _emitter(key: str, what: str, replies: Replies) -> Interview:
    """Where an engine or an input can go, where it can be panned, and what triggers its ducking."""
    outs = ways_out(replies)
    if len(outs) > 1:
        yield Question(
            f"{key}.to",
            f"Which line outs can {what} go to? There is {listing(outs)}.",
            some(some_of(outs, "line out")),
            "The one where it goes now comes first.",
            listing(outs[:1]),
        )
    stereo = any(replies[f"out.{n}.shape"] != "mono" for n in range(1, replies["outs"] + 1))
    wide = key != "engine" and replies[f"{key}.fader"] == "both" and replies[f"{key}.shape"] != "mono"
    if (stereo or replies["phones"] == "own") and not wide:
        yield choose(f"{key}.pan", f"Where can {what} be panned?", PANS, "Left and right of the line out.")
    if DUCKING in replies[f"{key}.offers"] and replies["engines"]:
        known = replies["engine.names"]
        yield Question(
            f"{key}.key",
            f"What can trigger the ducking of {what}? There is {listing(known)}.",
            some_of(known, "sound"),
            "The sounds of this box that the ducking can listen to.",
            listing(known) if len(known) <= 20 else "",
            "nothing",
        )


def _tracks(many: int, replies: Replies) -> Interview:
    yield Question(
        "track.names",
        "What is it called?" if many == 1 else "What are they called?",
        names_for(many),
        "As it is printed or shown. Several with commas between them.",
        _counted(many),
    )
    engines = replies["engine.names"] if replies["engines"] else ()
    if engines:
        yield Question(
            "track.plays",
            f"Which sounds of this box do they always play? There is {listing(engines)}.",
            _plays(many, engines),
            "One for each track in their order, as far as they go: the first track plays the first that you name."
            " Tracks behind them play other boxes.",
            listing(engines[:many]) if replies["engine.channels"] == NONE and min(many, len(engines)) <= 20 else "",
            "none",
        )
    yield choose("track.sends", "Do they send notes out over MIDI?", (("yes", ""), ("no", "")), "To play other boxes.")
    if replies["track.sends"] == "yes":
        yield _standing("track.standing", many, "send on now")
        yield choose("track.off", "Can that sending be switched off?", NO_YES, "Then a track plays this box alone.")


def _plays(many: int, engines: tuple[str, ...]) -> Callable[[str], tuple[str, ...]]:
    def check(text: str) -> tuple[str, ...]:
        found = names(text)
        for word in found:
            if word not in engines:
                raise none_such(word, engines, "sound {}; there is")
        if len(found) > many:
            raise NotSoError(f"There are {many} tracks, so at most {many} sounds are wanted.")
        return tuple(found)

    return check
