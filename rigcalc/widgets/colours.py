"""The colours of everything that is shown, in light and dark, once for pages, pictures, drawing and sheet.

Ink on paper, and one signal colour: the magenta of survey flags, which neither a crop nor a machine has. It marks
what gives out first and nothing that matters less. `scale1` to `scale5` run evenly from light to dark (or back), so
that they read the same with every kind of colour blindness and on a grey printer. No state is told by colour alone.
"""

from __future__ import annotations

LIGHT: dict[str, str] = {
    "paper": "#ffffff", "ink": "#111417", "soft": "#3f464d", "line": "#767d84", "faint": "#eceef0", "field": "#f6f7f8",
    "signal": "#ad005d", "on-signal": "#ffffff", "wash": "#fbe9f3", "soil": "#e4d9c8", "soil-line": "#6b5a43",
    "scale1": "#eef2f5", "scale2": "#c3d2de", "scale3": "#8aa6bd", "scale4": "#4d7394", "scale5": "#1d3f60",
}  # fmt: skip

DARK: dict[str, str] = {
    "paper": "#101315", "ink": "#f3f5f6", "soft": "#c3c9ce", "line": "#878f96", "faint": "#23282c", "field": "#1a1f22",
    "signal": "#ff7cc0", "on-signal": "#101315", "wash": "#3a1028", "soil": "#3b3226", "soil-line": "#c9b491",
    "scale1": "#17222c", "scale2": "#2b4459", "scale3": "#4d7394", "scale4": "#8aa6bd", "scale5": "#d5e2ec",
}  # fmt: skip


def variables(colours: dict[str, str]) -> str:
    """Give colours as CSS variables."""
    return "".join(f"--{name}:{value};" for name, value in colours.items())


# What wears the colours: our own pages, parts wherever they stand, the line that says that a connection is lost. Nothing else
# of a notebook is touched.
_WEARERS = (":root:has(> .rig-page)", ".rig-look", "#rig-banner")
# A notebook or an editor has a theme of its own; elsewhere the system's counts.
_THEMED = "body[data-jp-theme-light]:not([data-rigcalc]), body[data-vscode-theme-kind]"
_DARK_NOTEBOOK = "body[data-jp-theme-light=false]:not([data-rigcalc])"
_DARK_EDITOR = "body:is([data-vscode-theme-kind=vscode-dark], [data-vscode-theme-kind=vscode-high-contrast])"


def colour_css() -> str:
    """Give the style sheet that sets the colours: as the notebook or the system has it, unless the page's own switch says
    otherwise."""

    def worn(root: str, body: str = "") -> str:
        inside = [f"{root} {body} {wearer}" for wearer in _WEARERS[1:]]
        return ",".join(inside if body else [_WEARERS[0] + root.removeprefix(":root"), *inside])

    dark = f"{{color-scheme:dark;{variables(DARK)}}}"
    return (
        f"{','.join(_WEARERS)}{{color-scheme:light;{variables(LIGHT)}}}\n"
        f"@media (prefers-color-scheme:dark){{{worn(f':root:not([data-theme=light]):not(:has(> :is({_THEMED})))')}{dark}}}\n"
        f"{worn(':root:not([data-theme])', _DARK_NOTEBOOK)}{dark}\n"
        f"{worn(':root:not([data-theme])', _DARK_EDITOR)}{dark}\n"
        f"{worn(':root[data-theme=dark]')}{dark}\n"
    )


def contrast(one: str, other: str) -> float:
    """Give the contrast ratio of two colours such as `#ad005d`, 1 to 21 (WCAG 2.2, relative luminance)."""

    def luminance(colour: str) -> float:
        parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
        red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
        return 0.2126 * red + 0.7152 * green + 0.0722 * blue

    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)
