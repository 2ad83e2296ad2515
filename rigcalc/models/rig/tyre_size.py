"""Tyre sizes as they stand on the sidewall: 710/70R42, IF 710/60R34, 18.4-38, 30.5L-32, 66x43.00-25, and the index behind.

Metric sizes print width (mm), height as a share of it (percent) and rim (in); the older inch sizes width and rim alone;
flotation sizes diameter, width and rim. R is radial, - is bias (cross ply), B or D before the rim belted bias or bias. What can
be read in more than one way isn't guessed at.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.tables import table
from rigcalc.core.units import factor
from rigcalc.equations import tyre as book

INCH = factor("in", "m")
MOST_LETTERS = 60
EXAMPLES = "710/70R42, IF 710/60R34, 18.4-38, 30.5L-32 or 66x43.00-25"
# Smallest garden tyre to widest flotation tyre, with room (from memory).
_WIDTHS_MM, _ASPECTS, _RIMS_IN, _WIDTHS_IN, _ACROSS_IN = (100, 1400), (25, 110), (4, 60), (3, 55), (8, 100)

_BUILDS = {"R": "radial", "-": "bias", "D": "bias", "B": "belted"}
_INDEX = r"(?P<index>\d{2,3})\s*(?P<symbol>A[1-8]|[B-Z])(?:\s*/\s*(?:\d{2,3}\s*)?(?:A[1-8]|[B-Z]))?"
# What else stands behind a size: tube or none, ply rating, tread code, service, cyclic loads.
_MARK = r"(?:TL|TT|\d{1,2}\s?PR|R-?[1-4]W?|IMP|IND|NHS|SL|CFO|CHO|NRO|HF|STAR|\*{1,3})"
_TAIL = rf"(?:\s+{_MARK})*(?:\s+\(?{_INDEX}\)?)?(?:\s+{_MARK})*"
_BUILD, _RIM = r"\s*(?P<build>[RBD-])\s*", r"(?P<rim>\d{1,2}(?:\.\d)?)"
_FLEX = r"(?:(?P<flex>IF|VF|CFO|CHO)\s*)?"
_METRIC = re.compile(rf"{_FLEX}(?P<width>\d{{3,4}})\s*/\s*(?P<aspect>\d{{2,3}}){_BUILD}{_RIM}{_TAIL}")
_INCH = re.compile(rf"(?P<width>\d{{1,2}}(?:\.\d{{1,2}})?)(?P<low>L)?(?:/(?P<aspect>\d{{2}}))?{_BUILD}{_RIM}{_TAIL}")
_FLOTATION = re.compile(rf"(?P<across>\d{{2,3}}(?:\.\d)?)\s*X\s*(?P<width>\d{{1,2}}(?:\.\d{{1,2}})?){_BUILD}{_RIM}{_TAIL}")


@dataclass(frozen=True)
class TyreSize:
    """A tyre size, read. Lengths in m; build is "radial", "bias" or "belted"; flex is "", "IF", "VF", "CFO" or "CHO".

    text: the size as it is usually written, without what stands behind it. known_by: how the height is known, by "figures" of
    the size itself, by its "name" (a flotation size: inches across, near enough), or by "table" tyre_sections. load_index and
    speed_symbol are None where the size doesn't bear them.
    """

    text: str
    build: str
    flex: str
    width: float
    height: float
    rim: float
    known_by: str
    load_index: int | None = None
    speed_symbol: str | None = None

    @property
    def diameter(self) -> float:
        """Overall diameter of the new tyre without load, m."""
        return float(book.tyre_diameter.bare(self.rim, self.height))

    @property
    def kind(self) -> str:
        """The kind of running gear in a rig file: "radial", or "bias" for all that isn't."""
        return "radial" if self.build == "radial" else "bias"


def tyre_size(text: str) -> TyreSize:
    """Read a tyre size.

    Parameters
    ----------
    text : str
        As on the sidewall: metric, inch or flotation form, with load index, speed symbol and marks behind it or not.

    Returns
    -------
    TyreSize
        Section width, section height, rim and overall diameter in m, construction and marks.

    Raises
    ------
    InputError
        For what is no size, or could be two: with the nearest form that can be read.

    Examples
    --------
    >>> size = tyre_size("VF 480/80R50 173D")
    >>> round(size.diameter, 3), size.load_index, size.speed_symbol
    (2.038, 173, 'D')
    """
    if not isinstance(text, str) or len(text) > MOST_LETTERS:
        raise _wrong(text, "")
    found = _read(_tidy(text))
    if found is None:
        raise _wrong(text, _nearest(_tidy(text)))
    return found


def _tidy(text: str) -> str:
    """Bring one spelling to all: capitals, a point before decimals, a plain dash, x for times, no doubled spaces."""
    plain = text.upper().replace("×", "X").replace("–", "-").replace("\N{MINUS SIGN}", "-").replace("★", "*")
    plain = re.sub(r"(?<=\d),(?=\d)", ".", plain)
    return " ".join(plain.split()) if plain.isascii() else ""


@cache
def _read(text: str) -> TyreSize | None:
    for form, make in ((_METRIC, _metric), (_INCH, _inch), (_FLOTATION, _flotation)):
        if (match := form.fullmatch(text)) is not None:
            return make(match)
    return None


def _metric(match: re.Match[str]) -> TyreSize | None:
    width, aspect = int(match["width"]), int(match["aspect"])
    if not (_within(width, _WIDTHS_MM) and _within(aspect, _ASPECTS)):
        return None
    listed = _listed(f"{width}/{aspect}")
    height = listed[1] if listed else float(book.section_height.bare(width / 1000, aspect / 100))
    return _made(match, f"{width}/{aspect}", width / 1000, height, "table" if listed else "figures")


def _inch(match: re.Match[str]) -> TyreSize | None:
    name = f"{match['width']}{match['low'] or ''}"
    if not _within(float(match["width"]), _WIDTHS_IN):
        return None
    if match["aspect"] is not None and "." in match["width"] and _within(int(match["aspect"]), _ASPECTS):
        width = float(match["width"]) * INCH
        height = float(book.section_height.bare(width, int(match["aspect"]) / 100))
        return _made(match, f"{name}/{match['aspect']}", width, height, "figures")
    listed = _listed(name)  # an older second figure, as in 12.4/11-28, is the width by a rule of before 1955
    return _made(match, name, *listed, "table") if listed else None


def _flotation(match: re.Match[str]) -> TyreSize | None:
    across, width, rim = float(match["across"]), float(match["width"]), float(match["rim"])
    if not (_within(across, _ACROSS_IN) and _within(width, _WIDTHS_IN) and rim < 0.9 * across):
        return None
    name = f"{match['across']}x{match['width']}"
    return _made(match, name, width * INCH, (across - rim) / 2 * INCH, "name")


def _made(match: re.Match[str], name: str, width: float, height: float, known_by: str) -> TyreSize | None:
    parts = match.groupdict()
    rim, build, flex = float(parts["rim"]), _BUILDS[parts["build"]], parts.get("flex") or ""
    index = int(parts["index"]) if parts["index"] else None
    symbol = parts["symbol"]
    known = index is None or (index < len(table("load_index")) and symbol in {row["symbol"] for row in table("speed_symbols")})
    if not (_within(rim, _RIMS_IN) and known):
        return None
    text = f"{flex} {name}{parts['build']}{parts['rim']}".strip()
    return TyreSize(text, build, flex, width, height, rim * INCH, known_by, index, symbol)


def _listed(section: str) -> tuple[float, float] | None:
    for row in table("tyre_sections"):
        if row["section"] == section:
            return row["width"] / 1000, row["height"] / 1000
    return None


def _within(value: float, span: tuple[float, float]) -> bool:
    return span[0] <= value <= span[1]


def _nearest(text: str) -> str:
    """Give the forms that a text which can't be read comes nearest to, each readable; empty where none is near."""
    plain = re.sub(r"(?<=\d)O|O(?=\d)", "0", text)  # the letter for the figure
    flex = next((flex for flex in ("IF", "VF") if plain.startswith(flex)), "")
    figures = re.findall(r"\d+(?:\.\d+)?", plain)[:4]
    tries = []
    if len(figures) >= 3:
        first, second, rim = figures[:3]
        tries = [f"{first}/{second}R{rim}", f"{second}/{first}R{rim}"]
        if float(first) <= _ACROSS_IN[1] and float(second) <= _WIDTHS_IN[1]:
            tries = [f"{first}X{second}-{rim}"]
    elif len(figures) == 2:
        low = "L" if re.search(r"\dL", plain) else ""
        tries = [f"{figures[0]}{low}-{figures[1]}", f"{figures[0]}{low}R{figures[1]}"]
    readable = [found.text for attempt in tries if (found := _read(f"{flex} {attempt}".strip())) is not None]
    most = 1 if len(figures) >= 3 else 2
    return " (bias) or ".join(readable[:most]) + (" (radial)" if len(readable[:most]) == 2 else "")


def _wrong(text: object, near: str) -> InputError:
    type_this = f"{near}, if that is what you meant" if near else "the size, or section_width and diameter instead"
    return InputError([Fault("size", shown(text), f"a tyre size as on the sidewall, such as {EXAMPLES}", type_this)])
