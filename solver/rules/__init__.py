"""The rules of the table: one file a family, each rule with its sentence, its constraint and its judgement."""

from solver.rules.clock import ClockReaches
from solver.rules.effects import Amounts, Keys
from solver.rules.hearing import Heard, KeepsSides
from solver.rules.notes import EnginesListen, NoStrayNotes, TracksSend
from solver.rules.plugs import AudioPlugs, Drawer, MidiPlugs
from solver.rules.rule import Rule
from solver.rules.sound import AloneCopies, AloneSums, CablesCarry, NoSoundLoops, Outlets
from solver.rules.stored import SameForAll
from solver.rules.strips import Apart, OneStrip
from solver.rules.tracks import Matches, OneTrack, ProgramChanges, Shifts
from solver.rules.wishes import Avoids, Keeps, LivesWhere

RULES: tuple[Rule, ...] = (
    # what narrows single choices comes first, so that all else is asked only of what is left
    LivesWhere(),
    OneTrack(),
    ProgramChanges(),
    Shifts(),
    Avoids(),
    # the ways of sound and notes come before all that asks where they lead
    AudioPlugs(),
    Outlets(),
    CablesCarry(),
    AloneSums(),
    AloneCopies(),
    NoSoundLoops(),
    TracksSend(),
    MidiPlugs(),
    Heard(),
    OneStrip(),
    Amounts(),
    Keys(),
    Apart(),
    KeepsSides(),
    EnginesListen(),
    NoStrayNotes(),
    ClockReaches(),
    Matches(),
    Drawer(),
    Keeps(),
    SameForAll(),
)
"""Every rule, in the order in which they are posted."""
