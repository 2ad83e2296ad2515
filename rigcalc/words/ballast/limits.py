"""The words of limits on weight: what each is called, how much of it is used, who says so."""

from __future__ import annotations

from rigcalc.models.ballast.limits import Check, Which
from rigcalc.words.numbers import System, number, say
from rigcalc.words.spelling import spelt

_WHENS = {"rest": "at rest", "pull": "under pull", "road": "on the road", "raised": "with the tool raised"}
_ON_AN_AXLE = {
    "axle": "{} axle",
    "tyres": "{} tyres",
    "index": "{} tyres by load index",
    "table": "{} tyres by their table",
    "pressure": "{} track pressure",
    "road_limit": "{} axle on the road, by law",
}
_ON_THE_WHOLE = {
    "track_pressure": "track pressure",
    "mass_limit": "mass with ballast, by the maker",
    "steer": "weight left to steer",
    "front_share_low": "share on the front axle at rest, low end",
    "front_share_high": "share on the front axle at rest, high end",
    "delivery": "delivery within 1 % of the best",
}
_SOURCES = {
    "rig_file": "rig file",
    "load_index": "load index and the factors for duals and triples",
    "steering": "operator manual (maker withheld): 20 percent of the tractor's mass, standing",
    "steering_pull": "a rule of ours, advice alone: 10 percent of the tractor's weight at work",
}


def when_text(when: str) -> str:
    """Say a situation: "under pull"."""
    return _WHENS[when]


def limit_title(which: Which, units: System) -> str:
    """Say what is limited, on which axle and when: "rear tyres by load index, under pull"."""
    title = _ON_AN_AXLE[which.what].format(which.axle) if which.axle else _ON_THE_WHOLE[which.what]
    return spelt(f"{title}, {when_text(which.when)}" if which.when else title, units)


def source_text(check: Check) -> str:
    """Say who sets a limit."""
    return _SOURCES.get(check.source) or check.cited or _SOURCES["rig_file"]


def check_text(check: Check, units: System) -> str:
    """Say how much of a limit is used."""
    word = "at most" if check.most else "at least"
    value = limit = ""
    for digits in (2 if check.share else 3, 3, 4, 5, 6):
        value, limit = (_amount(check, part, units, digits) for part in (check.value, check.limit))
        if check.holds or value != limit:
            break  # of a limit that is passed, the two must not read the same
    return f"{value}; {word} {limit}"


def _amount(check: Check, part: float, units: System, digits: int) -> str:
    return f"{number(100 * part, digits)} %" if check.share else say(part, "kg", units, digits)


def tip_text(tip: tuple[float, float, float], units: System) -> str:
    """Say which pull would lift the front axle, and what the tyres could hold then."""
    _, lifts, most = tip
    if lifts <= 0:
        return "the front axle lifts without any pull"
    return spelt(f"lifts at {say(lifts, 'kN', units)}; the tyres hold {say(most, 'kN', units)} then", units)
