"""What options say, as the answers that would be typed."""

from collections.abc import Iterable, Mapping, Sequence

from solver.gear.words import quoted
from solver.making.pieces import halves, pieces
from solver.making.questions import NotSoError, listing, none_such, typed


def given_for_jam(
    *,
    single: Mapping[str, str | None],
    boxes: Sequence[str],
    parts: Sequence[str],
    sounds: Sequence[str],
    layers: Sequence[str],
    treats: Sequence[str],
    clocked: Sequence[str],
    cables: Sequence[str],
) -> dict[str, str]:
    """The answers to the questions for a jam, by their keys, from the values of options.

    Raises:
        NotSoError: a value cannot be taken apart, or the sound of a part is told that is not there.
    """
    given = {key: text for key, text in single.items() if text is not None}
    for n, box in enumerate(boxes, start=1):
        name, file = halves(box)
        given |= {f"box.{n}": box} if file is None else {f"box.{n}": file, f"box.{n}.name": typed(name)}
    given |= _parts(parts, sounds)
    given |= _numbered("layer", layers)
    for n, treat in enumerate(treats, start=1):
        halved = pieces(treat, ":", most=1)
        if len(halved) != 2:
            raise NotSoError(f"--treat {quoted(treat)}: parts, a colon, then effects, such as arp: reverb 30.")
        given |= {f"treat.{n}": halved[0], f"treat.{n}.amounts": halved[1]}
    for what, values in {"box": boxes, "part": parts, "layer": layers, "treat": treats}.items():
        given |= {f"{what}.{len(values) + 1}": ""} if values else {}
    given |= {"clock": ", ".join(clocked)} if clocked else {}
    return given | ({"drawer": ", ".join(cables)} if cables else {})


def _parts(parts: Sequence[str], sounds: Sequence[str]) -> dict[str, str]:
    given: dict[str, str] = {}
    numbers: dict[str, int] = {}
    for n, part in enumerate(parts, start=1):
        name, place = halves(part)
        numbers[name] = n
        given |= {f"part.{n}": typed(name), f"part.{n}.on": place or ""}
    for sound in sounds:
        name, kind = halves(sound)
        if not kind:
            raise NotSoError(f"--sound {quoted(sound)}: a part, =, a kind of sound; the parts are {listing(numbers)}.")
        if name not in numbers:
            raise NotSoError(f"--sound {quoted(sound)}: {none_such(name, numbers, 'part {}; there is')}")
        given[f"part.{numbers[name]}.sound"] = kind
    if parts:
        given |= {f"part.{n}.sound": "" for n in numbers.values() if f"part.{n}.sound" not in given}
    return given


def _numbered(what: str, values: Iterable[str]) -> dict[str, str]:
    return {f"{what}.{n}": text for n, text in enumerate(values, start=1)}


def given_for_box(
    single: Mapping[str, str | int | None],
    *,
    outs: Sequence[str],
    ins: Sequence[str],
    midi: Sequence[str],
    answers: Sequence[str] = (),
) -> dict[str, str]:
    """The answers to the questions for a box, by their keys, from the values of options.

    Raises:
        NotSoError: what should be one or two jacks has more labels, or an answer has no question.
    """
    given = {key: str(value) for key, value in single.items() if value is not None}
    for of, values in {"out": outs, "in": ins}.items():
        given |= {f"{of}s": str(len(values))} if values else {}
        for n, labels in enumerate(values, start=1):
            given |= _jacks(f"{of}.{n}", labels)
    for n, socket in enumerate(midi, start=1):
        way, label = halves(socket)
        way, _, plug = way.partition(" ")
        given |= {f"midi.{n}": way} | ({f"midi.{n}.plug": plug} if plug else {})
        given |= {f"midi.{n}.name": label} if label else {}
    given |= {f"midi.{len(midi) + 1}": ""} if midi else {}
    for answer in answers:
        key, text = halves(answer)
        if text is None or not key:
            raise NotSoError(f"--answer {quoted(answer)}: a question, =, an answer, such as engine.sounds=drum.")
        given[key] = text
    return given


def _jacks(key: str, labels: str) -> dict[str, str]:
    found = pieces(labels)
    if len(found) == 2:
        return {f"{key}.shape": "pair", f"{key}.left": found[0], f"{key}.right": found[1]}
    shape, sign, label = labels.partition(" ")
    if len(found) == 1 and shape in ("stereo", "mono") and sign:
        return {f"{key}.shape": shape, f"{key}.label": label}
    if len(found) == 1:
        return {f"{key}.shape": "mono", f"{key}.label": found[0]}
    raise NotSoError(f"{quoted(labels)}: one label, or two for left and right with a comma between them.")
