"""The sizing app's text parts as HTML: the answer, what gives out, how far it goes, every number, notes, the working."""

from __future__ import annotations

import re

from rigcalc.models import Answer, Margin
from rigcalc.models.machine.limits import state_of
from rigcalc.models.machine.operating_point import UNITS
from rigcalc.views.rig.gauges import gauge
from rigcalc.widgets.html import button, esc, fold, table
from rigcalc.words.numbers import chance, percent, say

_NAMES = {
    **{
        "draft": "Draft of the shanks",
        "drawbar_pull": "Pull at the drawbar",
        "net_pull": "Pull of the tractor, slope included",
    },
    **{"peak_pull": "Most pull that grip can give", "slip": "Slip", "tractive_efficiency": "Tractive efficiency"},
    **{
        "engine_power": "Power from the engine",
        "engine_share": "Share of rated power",
        "pto_power": "The same at the power take-off",
    },
    **{"axle_power": "Power at the axles", "drawbar_power": "Power at the drawbar", "front_load": "Front axle load"},
    **{"rear_load": "Rear axle load", "fuel_rate": "Fuel", "fuel_per_area": "Fuel for the area", "def_rate": "Exhaust fluid"},
    **{"field_capacity": "Area worked", "width": "Working width", "specific_draft": "Draft for each area of cut soil"},
}
_SETS = {"deepest": "work.depth", "fastest": "work.speed", "most tools": "implement.tools"}


def verdict(answer: Answer | None) -> str:
    """Give the answer in one word and one sentence, in large type."""
    if answer is None:
        return (
            '<p class="rig-verdict is-none"><span class="rig-word">No answer</span>'
            '<span class="rig-sentence">Something needs mending first; it stands below.</span></p>'
        )
    word, rest = split_sentence(answer.sentence)
    state = "over" if not answer.works else state_of(answer.binding.used or 0.0)
    first = re.split(r"(?<=[.;]) (?=[A-Z])", rest)[0]
    return (
        f'<p class="rig-verdict is-{state}"><span class="rig-word">{esc(word)}</span>'
        f'<span class="rig-sentence">{esc(first)}</span></p>'
    )


def split_sentence(sentence: str) -> tuple[str, str]:
    """Part the answer into its word and the rest: ("Yes", "it pulls ...")."""
    word, colon, rest = sentence.partition(": ")
    if colon and len(word) < 20:
        return word, rest
    return ("Yes, but", sentence) if sentence.startswith("It pulls") else ("Answer", sentence)


def facts(answer: Answer | None) -> str:
    """Give the few numbers that are read in the cab, and the rest of the answer's words."""
    if answer is None:
        return ""
    _, rest = split_sentence(answer.sentence)
    more = " ".join(re.split(r"(?<=[.;]) (?=[A-Z])", rest)[1:])
    p, u = answer.point.bare, answer.units
    share = answer.sure.chance_works
    odds = "99+ in 100" if share > 0.99 else "under 1 in 100" if share < 0.01 else chance(share)
    cards = [("Sure", odds, "such fields: every limit holds")]
    if answer.point.pulls:
        cards = [
            ("Slip", percent(p.slip), f"aim for {percent(answer.caps.slip_low)} to {percent(answer.caps.slip_high)}"),
            ("Engine", percent(p.engine_share), "of rated power"),
            (
                "Area",
                say(p.field_capacity, "ha/h", u, 2),
                answer.season_text.split(";")[0] if answer.season else "turning included",
            ),
            ("Fuel", say(p.fuel_rate, "L/h", u, 2), say(p.fuel_per_area, "L/ha", u, 2)),
            *cards,
        ]
    # In so narrow a place a percent sign must not stand alone on a line.
    items = "".join(
        f"<li>{esc(name)}<b>{esc(value)}</b><small>{esc(text).replace(' %', '&#160;%')}</small></li>"
        for name, value, text in cards
    )
    return f'<ul class="rig-cards">{items}</ul>' + (f"<p class='rig-more'>{esc(more)}</p>" if more else "")


def limits(answer: Answer | None) -> str:
    """Give every limit as a gauge with its words, the nearest first."""
    if answer is None:
        return ""
    known = sorted((m for m in answer.margins if m.used is not None), key=lambda m: -(m.used or 0))
    known.sort(key=lambda m: m.name != answer.binding.name)
    stops, advice = ([m for m in known if m.hard is hard] for hard in (True, False))
    near = [m for index, m in enumerate(stops) if index < 3 or m.state in ("over", "tight")]
    heed = [m for m in advice if m.state in ("over", "tight")]
    others = [m for m in known if m not in near and m not in heed]
    unknown = [m for m in answer.margins if m.used is None]

    def gauges(margins: list[Margin]) -> str:
        return f"<ol>{''.join(_gauge(m, m.name == answer.binding.name) for m in margins)}</ol>"

    out = f"<h2>What gives out first</h2>{gauges(near)}"
    if heed:
        out += f"<h3>Advice, not a stop</h3>{gauges(heed)}"
    if others:
        out += fold("other-limits", f"{len(others)} more, all of which hold", gauges(others))
    if unknown:
        items = "".join(f"<li>{esc(m.title)}: {esc(m.text)}</li>" for m in unknown)
        out += fold("unknown-limits", f"Not known: {len(unknown)}", f"<ul>{items}</ul>")
    return out


def _gauge(margin: Margin, first: bool) -> str:
    title = margin.title if margin.hard or margin.state in ("over", "tight") else f"{margin.title} (advice)"
    return gauge(title, margin.used or 0.0, margin.state, margin.text, first)


def reverse(answer: Answer | None) -> str:
    """Give how far it goes, each with a button that tries it."""
    if answer is None:
        return ""
    items = []
    for each in answer.reverse:
        title, _, text = each.text.partition(": ")
        small = re.search(r" \(([^()]*)\)$", text)
        big = text[: small.start()] if small else text
        go = button("try", "Try it", each.question) if each.value is not None and each.question in _SETS else ""
        items.append(f"<li>{esc(title)}<b>{esc(big)}</b><small>{esc(small[1] if small else '')}</small> {go}</li>")
    return f'<h2>How far it goes</h2><ul class="rig-cards">{"".join(items)}</ul>'


def path_of(question: str) -> str | None:
    """Give the entry that a reverse answer sets, None where it sets none."""
    return _SETS.get(question)


def numbers(answer: Answer | None, wanted: bool) -> str:
    """Give every number with the range that 8 fields in 10 fall into; made only when its fold was opened once."""
    if answer is None:
        return ""
    rows = []
    if not wanted:
        return fold("numbers", "Every number, with its range", "", ask="open", value="numbers")
    for name, title in _NAMES.items():
        value = float(getattr(answer.point.bare, name))
        low, _, high, unit = answer.sure.bands.get(name, (None, None, None, UNITS[name]))
        band = "" if name not in answer.sure.bands else f"{_say(low, unit, answer)} to {_say(high, unit, answer)}"
        rows.append((title, _say(value, UNITS[name], answer) if value == value else "none: it can't pull", band))
    inside = table("Every number", ("What", "Here", "In 8 fields of 10"), rows)
    season = f"<p>{esc(answer.season_text)}</p>" if answer.season else ""
    return fold("numbers", "Every number, with its range", season + inside, ask="open", value="numbers")


def _say(value: float | None, unit: str, answer: Answer) -> str:
    if value is None:
        return "out of reach"
    return percent(value) if unit == "1" else say(value, unit, answer.units)
