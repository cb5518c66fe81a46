"""Texts with several things in them, taken apart; what stands in double quotes is never cut."""

import re
import tomllib

_QUOTED = re.compile(r'"(?:[^"\\]|\\.)*"')
_BEFORE_NAMES = " \t,:="


def pieces(text: str, at: str = ",", most: int = 0) -> list[str]:
    """The pieces between the signs ``at``, without the space around them; empty ones are left out.

    Args:
        text: such as ``bass, "pad, wide"``.
        at: the sign between two pieces.
        most: how many cuts are made at most; 0 for as many as there are.
    """
    found: list[str] = []
    start = place = 0
    while place < len(text):
        whole = _QUOTED.match(text, place) if place == start or text[place - 1] in _BEFORE_NAMES else None
        if whole:
            place = whole.end()
        elif text[place] == at and not (most and len(found) >= most):
            found.append(text[start:place])
            start = place = place + 1
        else:
            place += 1
    return [piece.strip() for piece in (*found, text[start:]) if piece.strip()]


def plain(text: str) -> str:
    """A name as it is meant: one in double quotes without them, escapes as in TOML."""
    text = text.strip()
    if not _QUOTED.fullmatch(text):
        return text
    try:
        return str(tomllib.loads(f"name = {text}")["name"])
    except tomllib.TOMLDecodeError:
        return text


def halves(text: str, at: str = "=") -> tuple[str, str | None]:
    """What stands before and behind the first sign ``at``, names as they are meant; None where there is no sign.

    ``"a=b"=c`` is ``a=b`` and ``c``.
    """
    text = text.strip()
    whole = _QUOTED.match(text)
    if whole and text[whole.end() :].lstrip()[:1] in ("", at):
        first, rest = whole.group(), text[whole.end() :].lstrip()
        return plain(first), rest[1:].strip() if rest else None
    first, sign, second = text.partition(at)
    return plain(first), second.strip() if sign else None


def slug(text: str) -> str:
    """A file name without its ending, from a name: small letters, digits and dashes."""
    return re.sub(r"[^\w]+", "-", text.casefold()).strip("-_")[:60] or "new"
