"""The rules of effects: A9 and A10."""

from solver.gear.rig import Emission
from solver.gear.words import DUCKING, Spot
from solver.jam.jam import Wanted
from tests.twin.clauses import Lit
from tests.twin.table import Table


def treat(table: Table) -> None:
    """A9: one amount an effect and emitter, where a part wants it; each wanted amount just once on a part's way."""
    for emitter, gear in table.rig.emitters.items():
        for effect in gear.offers:
            amounts = _amounts(table, emitter, effect)
            table.clauses.between(0, 1, amounts.values())
            for amount, lit in amounts.items():
                wanting = [w.part for w in table.jam.wanted if (w.effect, w.amount) == (effect, amount)]
                table.clauses.clause(-lit, *(table.passes(part, emitter) for part in wanting))
    for wanted in table.jam.wanted:
        _once(table, wanted)


def _amounts(table: Table, emitter: Emission, effect: str) -> dict[int, Lit]:
    return {amount: lit for (at, of, amount), lit in table.amounts.items() if (at, of) == (emitter, effect)}


def _once(table: Table, wanted: Wanted) -> None:
    """A stereo part's pair of strips is set alike, so what its left passes counts."""
    left, had = table.signals(wanted.part)[0], list[Lit]()
    for emitter in table.rig.emitters:
        passes = table.passes(wanted.part, emitter)
        for amount, lit in _amounts(table, emitter, wanted.effect).items():
            if amount == wanted.amount and wanted.at in (None, emitter.spot.box):
                way = passes if emitter.of == "engine" else table.into(left, emitter.spot)
                had.append(table.clauses.both(way, lit))
                if emitter.of == "strip":
                    table.clauses.forbid(passes, lit, -table.heard_over(wanted.part, emitter.spot))
            else:
                table.clauses.forbid(passes, lit)
    if wanted.amount:
        table.clauses.between(1, 1, had)


def key(table: Table) -> None:
    """A10: one key where something ducks; it lives where it can trigger, and is the one that all who duck want."""
    clauses = table.clauses
    ducked = [wanted for wanted in table.jam.wanted if wanted.effect == DUCKING and wanted.amount]
    for emitter, gear in table.rig.emitters.items():
        ducks = clauses.either(_amounts(table, emitter, DUCKING).values())
        keys = {part: lit for (at, part), lit in table.keys.items() if at == emitter}
        clauses.clause(-ducks, *keys.values())
        clauses.between(0, 1, keys.values())
        for part, lit in keys.items():
            clauses.clause(-lit, ducks)
            clauses.clause(-lit, *(table.lives[part, Spot(emitter.spot.box, name)] for name in gear.key))
        for wanted in ducked:
            chosen = table.keys[emitter, wanted.key or ""]
            clauses.clause(-table.passes(wanted.part, emitter), -ducks, chosen)
