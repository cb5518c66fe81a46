"""The rule of the clock."""

from collections.abc import Iterator

from solver.flow.followed import Followed
from solver.flow.loops import reachable
from solver.gear.words import Spot
from solver.jam.intents import Clock
from solver.rules.rule import Rule
from solver.search.choices import Choices
from solver.search.model import YES
from solver.search.played import Pass


class ClockReaches(Rule):
    """M7."""

    id = "M7"
    sentence = "The leader's clock reaches every box you name, over ports that carry clock."

    def constrain(self, choices: Choices) -> None:
        """Clock passes from the leader's outs over ports that pass clock to every box that follows it."""
        ports, clock = choices.rig.ports, choices.clock
        for port, gear in ports.items():
            if gear.clock and gear.sends and gear.way != "thru" and port.box == choices.jam.leader:
                clock.source(choices.jam.leader, Pass("out of", port), YES)
            for source in (Spot(port.box, name) for name in gear.passes_on):
                if gear.clock and ports[source].clock:
                    clock.edge(Pass("into", source), Pass("out of", port), YES)
        for hop in choices.wires.hops:
            if ports[hop.start].clock and ports[hop.end].clock:
                clock.edge(Pass("out of", hop.start), Pass("into", hop.end), hop.given)
        for _, intent in choices.jam.stated(Clock):
            for box in (box for box in intent.clock if box != choices.jam.leader):
                came = (clock.present(choices.jam.leader, Pass("into", port)) for port in ports if port.box == box)
                choices.model.clause(*came)

    def breaches(self, followed: Followed) -> Iterator[str]:
        """Yield named boxes that the clock does not reach."""
        named = [box for _, intent in followed.jam.stated(Clock) for box in intent.clock]
        if not named:
            return
        leader, notes = followed.jam.leader, followed.notes
        starts = [half for half in notes.outs(leader) if followed.rig.ports[half.port].clock]
        reached = {half.port.box for half in reachable(starts, notes.clocked) if not half.leaves}
        for box in dict.fromkeys(named):
            if box != leader and box not in reached:
                yield f"the clock of {leader} does not reach {box}"
