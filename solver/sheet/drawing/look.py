"""Colours and strokes of a drawing: one table that makes both its style sheet and what stands in where there is none.

Each element carries its light look as attributes, so a program that knows no style sheets or no custom properties still
shows it well. The style sheet, where it is known, puts colours over them that follow the reader's light or dark scheme.
A page may set any of the properties ``--drawing-ink``, ``--drawing-paper`` and so on, and they win.
"""

from solver.sheet.drawing.letters import FAMILY

ROOT = "hp-drawing"
"""The class of the drawing, under which all its styles stand, and the beginning of its ids."""

LIGHT = {
    "paper": "#ffffff",
    "card": "#f5f6f4",
    "edge": "#68727a",
    "ink": "#1c2429",
    "quiet": "#505a61",
    "audio": "#1b6ca8",
    "midi": "#a84a15",
    "ears": "#4c6b22",
}
DARK = {
    "paper": "#14191d",
    "card": "#1f262b",
    "edge": "#8b969e",
    "ink": "#eceff1",
    "quiet": "#b3bdc4",
    "audio": "#72b7e8",
    "midi": "#eb9d66",
    "ears": "#a9ca75",
}
"""Text has a contrast of at least 4.5 to 1 on what it stands on, in both (WCAG 2.2, success criterion 1.4.3)."""

_STYLES: dict[str, dict[str, str]] = {
    "paper": {"fill": "paper"},
    "card": {"fill": "card", "stroke": "edge", "stroke-width": "1.5"},
    "rule": {"fill": "none", "stroke": "edge", "stroke-width": "1"},
    "text": {"fill": "ink"},
    "quiet": {"fill": "quiet"},
    "heard": {"fill": "ears"},
    "ears": {"fill": "none", "stroke": "ears", "stroke-width": "2", "stroke-linecap": "round"},
    "casing": {"fill": "none", "stroke": "paper", "stroke-width": "8"},
    "audio": {"fill": "none", "stroke": "audio", "stroke-width": "3.5"},
    "midi": {"fill": "none", "stroke": "midi", "stroke-width": "2", "stroke-dasharray": "7 4"},
    "audio-disc": {"fill": "paper", "stroke": "audio", "stroke-width": "1.5"},
    "midi-disc": {"fill": "paper", "stroke": "midi", "stroke-width": "1.5"},
    "audio-socket": {"fill": "audio"},
    "midi-socket": {"fill": "paper", "stroke": "midi", "stroke-width": "2"},
    "tag": {"fill": "audio"},
    "tag-text": {"fill": "paper"},
}


def attributes(style: str) -> dict[str, str]:
    """The class of a style and its light look."""
    plain = {key: LIGHT.get(value, value) for key, value in _STYLES[style].items()}
    return {"class": f"hp-{style}", **plain}


def style_sheet() -> str:
    """The style sheet: colours by scheme, light on paper, and what has which colour."""
    rules = [
        f".{ROOT} {{ {_palette(LIGHT)} font-family: {FAMILY}; }}",
        f"@media (prefers-color-scheme: dark) {{ .{ROOT} {{ {_palette(DARK)} }} }}",
        f"@media print {{ .{ROOT} {{ {_palette(LIGHT)} }} }}",
    ]
    for style, keys in _STYLES.items():
        colours = [f"{key}: var(--hp-{value});" for key, value in keys.items() if value in LIGHT]
        rules.append(f".{ROOT} .hp-{style} {{ {' '.join(colours)} }}")
    return "\n" + "\n".join(rules) + "\n"


def _palette(colours: dict[str, str]) -> str:
    return " ".join(f"--hp-{name}: var(--drawing-{name}, {colour});" for name, colour in colours.items())
