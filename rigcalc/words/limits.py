"""The machine's limits in words: what each is called, what is said when it is passed, where it is from."""

from __future__ import annotations

from rigcalc.core.equation import words as spelled
from rigcalc.models.machine.limits import RangeUse, SlipSource
from rigcalc.words.numbers import System
from rigcalc.words.spelling import spelt

LIMIT_TITLES = {
    "tipping": "tipping over backward",
    "holding": "holding back on the slope",
    "engine": "engine power",
    "grip": "grip",
    "front_load": "front axle load",
    "rear_load": "rear axle load",
    "front_pressure": "front track pressure",
    "rear_pressure": "rear track pressure",
    "steering": "weight left to steer",
    "steering_rest": "weight in front, standing",
    "hitch_load": "tongue load",
    "tool_depth": "the tool's rated depth",
    "tool_power": "the tool's rated power",
    "slip": "slip band",
    "resultant": "place of the load on the tracks",
    "critical_depth": "critical depth of the point",
    "equation_range": "range of the equations",
    "extreme_depth": "extreme depth for this tool",
}
# Where sense stops before the limits do: what may cut a reverse answer beside a limit.
CUT_TITLES = {
    "critical_depth": "critical depth of the point",
    "row_depth": "as deep as the draft table goes",
    "row_speed": "top of the tool's usual speed",
    "bare_tractor": "the tractor without its weights",
    "mass_limit": "the maker's most mass",
    "mobility_range": "range of the traction equations",
}
_SOURCES = {
    "tipping": "moment balance",
    "holding": "traction equations, peak net pull",
    "resultant": "moment balance",
    "engine": "rig file; power ratios of the standard",
    "grip": "traction equations, peak net pull",
    "steering": "common practice: 10 percent in front under pull",
    "steering_rest": "operator manual (maker withheld): 20 percent of the tractor's weight in front, without the tool",
    "critical_depth": "bc_soil_handbook: 5 to 7 point widths",
    "equation_range": "valid range of each equation's source",
    "extreme_depth": "common practice",
}
# What is said when a limit is passed, for the hard limits apart from engine and grip; {piece} is a shank or what it is.
_PASSED = {
    "tipping": "the tractor would tip over backward",
    "resultant": "the load stands outside the middle third of the tracks",
    "holding": "the tyres can't hold the rig back on this slope",
    "front_load": "the front axle carries more than its limit",
    "rear_load": "the rear axle carries more than its limit",
    "front_pressure": "the front tracks press harder than their limit",
    "rear_pressure": "the rear tracks press harder than their limit",
    "steering": "the front axle is too light to steer",
    "hitch_load": "the tongue load is over its limit",
    "tool_depth": "the tool is not built for that depth",
    "tool_power": "each {piece} takes more power than it is rated for",
}
# The state of a limit or check, the same word wherever it is shown.
STATE_WORDS = {"ok": "holds", "tight": "tight", "over": "over", "unknown": "not known"}
# Limits that advise: the work goes badly beyond them, but nothing breaks or stops there.
_ADVICE = frozenset(["critical_depth", "extreme_depth", "steering_rest"])


def limit_title(name: str) -> str:
    """Give the title of a limit, or of what cuts a reverse answer; one that has none is called by its name."""
    return LIMIT_TITLES.get(name) or CUT_TITLES.get(name, name)


def limit_source(name: str, slip: SlipSource) -> str:
    """Say where a limit is from; `slip` is where the slip band is from."""
    return f"slip_bands: {slip_source(slip)}" if name == "slip" else _SOURCES.get(name, "rig file")


def slip_source(source: SlipSource | None) -> str:
    """Say where the band of slip to aim for is from; None for a band that was typed."""
    if source is None:
        return "as typed"
    if source.of == "track":
        return "a low-confidence memory for tracks on firm ground"
    if source.of == "track_fitted":
        return "the flat top of our own fitted curve for tracks"
    if source.of in ("cone_index", "track_by_cone_index"):
        return (
            f"between the bands of soft, tilled and firm ground{' for tracks' if 'track' in source.of else ''}, by cone index"
        )
    return f"the span of {source.count} source{'s' if source.count > 1 else ''} for {source.of} ground"


def passed_text(name: str, piece: str, units: System) -> str:
    """Say what is wrong where a hard limit is passed; `piece` is what the tool is made of, such as a shank."""
    text = _PASSED[name].format(piece=piece) if name in _PASSED else f"{limit_title(name)} is over its limit"
    return spelt(text, units)


def range_text(use: RangeUse) -> str:
    """Say which input of which equation stands nearest to the end of its range, or beyond it."""
    return f"{spelled(use.symbol)} {use.value:.3g} in {use.low:g} to {use.high:g} ({spelled(use.equation)})"


def is_advice(name: str) -> bool:
    """Say whether a limit is advice that stands beside the limits that stop the work."""
    return name in _ADVICE
