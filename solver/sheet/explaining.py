"""Why a jam is impossible and what the ways out are, as plain text."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from solver.flow.wording import counted, listing
from solver.jam.claims import Claim
from solver.jam.jam import Jam
from solver.reasons.easing import Fact
from solver.reasons.edits import ELSEWHERE, Edit
from solver.reasons.explained import Clash, WhyImpossible
from solver.reasons.repairs import Repair
from solver.sheet.cells import NO_BREAK, clean, wrap
from solver.sheet.claims import Said, path_of, said
from solver.sheet.edits import Source, edit_text, place
from solver.sheet.words import spans

TELLING = (
    *(
        "stored",
        "holds",
        "amounts",
        "sound",
        "offers",
        "shift",
        "channels",
        "drawer",
        "wiring",
        "inside",
        "in",
        "hears",
        "sends",
        "program",
        "owner",
        "key",
    ),
    *("pan", "copy", "sum", "jack", "stereo", "clock", "side", "strip", "track", "engine", "thru", "out"),
)
"""Kinds of facts, the one that tells most first: what is peculiar before what there could be more of."""
MOST_SHOWN = 3
"""Conflicts of one group that are told in full."""
MOST_ROWS = 8
"""Rows of one conflict; where there are more, rows that say the same of several parts are put together."""


def explained_text(jam: Jam, why: WhyImpossible, source: Source, width: int, every: bool = False) -> str:
    """Tell the conflicts, group by group, then the repairs.

    Args:
        jam: What was stated.
        why: Why that is impossible.
        source: The jam file.
        width: Cells a line.
        every: Whether to tell every conflict, and not just a few of each group.
    """
    told = [f"Impossible, proved: no set of cables and settings meets every wish of {jam.title}."]
    if len(why.groups) > 1:
        told.append(f"There are {len(why.groups)} reasons that share no line of the file.")
    text = [line for one in told for line in wrap(one, width)]
    number = 0
    for group in why.groups:
        shown = group if every else group[:MOST_SHOWN]
        for clash in shown:
            number += 1
            text += ["", *conflict_text(jam, clash, source, width, f"{number}. ")]
        if len(group) > len(shown):
            more = counted(len(group) - len(shown), "more conflict shares", "more conflicts share")
            text += ["", *wrap(f"And {more} lines with these; --all tells each.", width)]
    text += ["", *wrap(_others(why, source), width), "", *_repairs(jam, why, source, width)]
    return "".join(f"{line}\n" for line in text)


def headline(jam: Jam, clash: Clash) -> str:
    """The conflict in one line, with what it needs and what there is."""
    if not clash.facts:
        one = len(clash.conflict.statements) == 1
        return "this cannot be had on these boxes" if one else "these do not go together on these boxes"
    first = min(clash.facts, key=lambda fact: TELLING.index(fact.kind))
    return first.sentence if first.needs is None else _arithmetic(jam, clash, first)


def sentence(jam: Jam, text: str) -> str:
    """The text with a capital letter, unless it begins with a name."""
    first = text.split("/", maxsplit=1)[0].split(maxsplit=1)[0].rstrip(":;,")
    return text if first in jam.parts or first in jam.boxes else text[0].upper() + text[1:]


def _arithmetic(jam: Jam, clash: Clash, fact: Fact) -> str:
    treated = {c.piece[2] for c in clash.conflict.claims if c.piece[0] == "treat"}
    amounts = {
        (want.effect, want.amount, want.key)
        for want in jam.wanted
        if any(c.piece == ("treat", want.part, want.effect) for c in clash.conflict.claims)
    }
    if fact.kind == "side" and len(treated) == 1 and len(amounts) == fact.needs:
        return (
            f"{counted(len(amounts), 'amount')} of {listing(treated)}, {counted(fact.has or 0, 'side')} to carry them"
        )
    if fact.kind in ("holds", "amounts"):
        what = "part" if fact.kind == "holds" else "amount"
        return f"{counted(fact.needs or 0, what)} wanted; {fact.sentence}"
    if fact.kind == "shift":
        return f"{counted(fact.needs or 0, 'semitone')} wanted; {fact.sentence}"
    names = {
        "side": "side",
        "strip": "strip",
        "track": "track",
        "engine": "engine",
        "out": "MIDI out",
        "thru": "MIDI thru",
        "drawer": "cable",
        "channels": "channel",
    }
    return f"{counted(fact.needs or 0, names[fact.kind])} needed; {fact.sentence}"


def conflict_text(jam: Jam, clash: Clash, source: Source, width: int, lead: str = "") -> list[str]:
    """A conflict: its headline behind a lead, its lines and the gear, and how it is proved."""
    title = headline(jam, clash)
    text = wrap(f"{sentence(jam, title)}.", width, lead, " " * len(lead))
    drawers = any(claim.piece[0] == "cable" for claim in clash.conflict.claims)
    gear = [
        fact.sentence for fact in clash.facts if fact.sentence not in title and (fact.kind != "drawer" or not drawers)
    ]
    text += rows_text(jam, clash.conflict.claims, gear, source, width)
    if clash.conflict.minimal:
        proof = "Proved twice. Without any one of your lines above, the others can be had together."
        if len(clash.conflict.statements) == 1:
            proof = "Proved twice."
    else:
        proof = "Proved twice. The time was too short to show that every line above is needed."
    return [*text, *wrap(proof, width, "   ", "   ")]


def rows_text(jam: Jam, claims: Sequence[Claim], facts: Iterable[str], source: Source, width: int) -> list[str]:
    """Claims with their lines in the file, and facts of the gear."""
    return laid_rows([*rows_of(jam, claims, source), *(("gear", fact) for fact in facts)], width)


def laid_rows(rows: Sequence[tuple[str, str]], width: int) -> list[str]:
    """Where and what, under each other."""
    lead = max((len(where) for where, _ in rows), default=0)
    return [
        line
        for where, what in rows
        for line in wrap(f"{what}.", width, f"   {clean(where).ljust(lead)}  ", " " * (lead + 5))
    ]


def rows_of(jam: Jam, claims: Sequence[Claim], source: Source) -> list[tuple[str, str]]:
    """Where and what for each claim; a part's being there goes without saying where something is said of it."""
    there = [claim.parts[0] for claim in claims if claim.piece[0] == "part"]
    spoken = {part for claim in claims if claim.piece[0] != "part" for part in claim.parts}
    told = [claim for claim in claims if claim.piece[0] != "part" or claim.parts[0] not in spoken]
    together: dict[object, list[tuple[int | None, Said]]] = {}
    for claim in told:
        path, saying = path_of(jam, claim), said(jam, claim, there)
        apart: object = path if len(told) <= MOST_ROWS else ()
        if claim.piece[0] == "separate" and not _all_pairs(told, claim):
            apart = claim.piece
        together.setdefault((apart, saying[1:], bool(saying.who)), []).append((source.line(path), saying))
    rows = []
    for some in together.values():
        names = list(dict.fromkeys(name for _, saying in some for name in saying.who))
        saying = some[0][1]
        if len(names) > 1 and all(map(str.isdecimal, names)):
            names, saying = spans(map(int, names)), saying._replace(does=saying.do)
        rows.append((place(source, [line for line, _ in some]), str(saying._replace(who=tuple(names)))))
    return rows


def _all_pairs(claims: Sequence[Claim], one: Claim) -> bool:
    """Whether each two of the parts that a ``separate`` is told of are a pair of it."""
    pairs = [claim.piece[1:] for claim in claims if claim.statement == one.statement and claim.piece[0] == "separate"]
    count = len({part for pair in pairs for part in pair})
    return len(pairs) == count * (count - 1) // 2


def _others(why: WhyImpossible, source: Source) -> str:
    if why.all:
        return "There are no other conflicts."
    found = (
        "There may be other conflicts." if why.groups else "The time was too short to find out which lines these are."
    )
    return f"{found} Give it more: hardpan explain {source.shell} --all --time-limit 600"


def _repairs(jam: Jam, why: WhyImpossible, source: Source, width: int) -> list[str]:
    found = why.repaired.repairs
    if not found:
        said = "No way out was found among the changes that hardpan knows"
        if why.repaired.done:
            return wrap(f"{said}.", width)
        following = f"Next: hardpan explain {source.shell} --all takes the time that it needs."
        return [*wrap(f"{said} in the time given.", width), *wrap(following, width)]
    text = ["Ways out, cheapest first"]
    for number, repair in enumerate(found, start=1):
        text += repair_text(jam, repair, source, width, f"{number}. ")
    return [*text, "", *wrap(f"Next: hardpan explain {source.shell} --repair 1 shows the plan with the first.", width)]


def repair_text(jam: Jam, repair: Repair, source: Source, width: int, lead: str = "") -> list[str]:
    """A way out behind a lead: its changes, where they are made, what it costs."""
    changes = sentence(jam, "; ".join(_says(edit, repair) for edit in repair.edits))
    proof = ", proved the cheapest" if repair.cheapest else ""
    cables = repair.planned.best.goals
    assert cables is not None
    text = wrap(f"{changes}.", width, lead or "   ", "   ")
    for edit in repair.edits:
        text += wrap(edit_text(edit, source), width, "   ", "     ")
    return [
        *text,
        *wrap(f"Cost {repair.cost}{proof}; planned with {counted(cables.cables, 'cable')}.", width, "   ", "   "),
    ]


def _says(edit: Edit, repair: Repair) -> str:
    if edit.kind == ELSEWHERE and edit.path[-1] in ("on", "sound"):
        return f"{edit.says} (the plan takes {repair.planned.best.parts[str(edit.path[1])].engine})"
    return edit.says.replace(" %", f"{NO_BREAK}%")
