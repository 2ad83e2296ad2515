"""The machine's limits in words: what each is called, what is said when it is passed, where it is from."""

from __future__ import annotations

from rigcalc.core.equation import words as spelled
from rigcalc.models.machine.limits import RangeUse, SlipSource

LIMIT_TITLES = {
    "engine": "engine power",
    "grip": "grip",
    "front_load": "front axle load",
    "rear_load": "rear axle load",
    "front_pressure": "front track pressure",
    "rear_pressure": "rear track pressure",
    "steering": "weight left to steer",
    "hitch_load": "load on the hitch",
    "tool_depth": "the tool's rated depth",
    "tool_power": "the tool's rated power",
    "slip": "slip band",
    "critical_depth": "critical depth of the point",
    "equation_range": "range of the equations",
    "extreme_depth": "depth that counts as extreme for this tool",
}
_SOURCES = {
    "engine": "rig file; power ratios of d497",
    "grip": "traction equations, peak net pull",
    "steering": "common practice: 10 percent in front under pull",
    "critical_depth": "bc_soil_handbook: 5 to 7 point widths",
    "equation_range": "valid range of each equation's source",
    "extreme_depth": "common practice",
}
# What is said when a limit is passed, for the hard limits apart from engine and grip; {piece} is a shank or what it is.
_PASSED = {
    "front_load": "the front axle carries more than its limit",
    "rear_load": "the rear axle carries more than its limit",
    "front_pressure": "the front tracks press harder than their limit",
    "rear_pressure": "the rear tracks press harder than their limit",
    "steering": "the front axle is too light to steer",
    "hitch_load": "the load on the hitch is over its limit",
    "tool_depth": "the tool is not built for that depth",
    "tool_power": "each {piece} takes more power than it is rated for",
}
# The state of a limit or check, the same word wherever it is shown.
STATE_WORDS = {"ok": "holds", "tight": "tight", "over": "over", "unknown": "not known"}
# Limits that advise: the work goes badly beyond them, but nothing breaks or stops there.
_ADVICE = frozenset(["critical_depth", "extreme_depth"])


def limit_title(name: str) -> str:
    """Give a limit's title; a limit that has none is called by its name."""
    return LIMIT_TITLES.get(name, name)


def limit_source(name: str, slip: SlipSource) -> str:
    """Say where a limit is from; `slip` is where the slip band is from."""
    return f"slip_bands: {slip_source(slip)}" if name == "slip" else _SOURCES.get(name, "rig file")


def slip_source(source: SlipSource | None) -> str:
    """Say where the band of slip to aim for is from; None for a band that was typed."""
    if source is None:
        return "as typed"
    if source.of == "track":
        return "a low-confidence memory for tracks on firm ground"
    if source.of == "fuel_tables":
        return "the 15 percent that fuel tables assume"
    return f"the span of {source.count} source{'s' if source.count > 1 else ''} for {source.of} ground"


def passed_text(name: str, piece: str) -> str:
    """Say what is wrong where a hard limit is passed; `piece` is what the tool is made of, such as a shank."""
    return _PASSED[name].format(piece=piece) if name in _PASSED else f"{limit_title(name)} is over its limit"


def range_text(use: RangeUse) -> str:
    """Say which input of which equation stands nearest to the end of its range, or beyond it."""
    return f"{spelled(use.symbol)} {use.value:.3g} in {use.low:g} to {use.high:g} ({spelled(use.equation)})"


def is_advice(name: str) -> bool:
    """Say whether a limit is advice that stands beside the limits that stop the work."""
    return name in _ADVICE
