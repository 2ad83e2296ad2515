"""The working of an answer in words: each step with its axle named, in the units chosen, four figures at most.

A formula and the numbers put into it stand in the units of its source, so that they can be laid beside the page; what goes in
and what comes out stands in the units chosen first.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from rigcalc.core.dimensions import of_terms
from rigcalc.core.tables import table
from rigcalc.core.working import Working, working
from rigcalc.models.machine.draft_force import deep_most
from rigcalc.models.rig.bare import other_soil_group_of, soil_group_of, texture_of
from rigcalc.models.rig.rig import Rig
from rigcalc.models.size.answer import Answer
from rigcalc.models.size.steps import Step, Sum, steps
from rigcalc.words.numbers import System
from rigcalc.words.size.chance_steps import chance_steps
from rigcalc.words.size.figures import both, plain
from rigcalc.words.spelling import spelt
from rigcalc.words.tools import gang_name

_OF = {"front": "front axle", "rear": "rear axle", "tracks": "tracks", "tractor": "tractor", "implement": "implement"}
# What a symbol stands for where a step uses it for another body than its own text says.
_MEANS = {
    ("grade_resistance", "implement", "weight"): "weight of the implement",
    ("implement_rolling_resistance", "implement", "implement_weight"): "weight of the implement on its wheels",
    ("drawbar_power", "", "draft"): "drawbar pull",
    ("center_of_gravity_ahead", "", "axle_weight"): "weight on the front axle at rest",
}
_SUMS = {
    "draft": ("draft of the whole tool", "draft of the tool itself + draft of each gang beside it"),
    "drawbar_pull": ("drawbar pull", "draft + rolling resistance of the implement + its part of the grade"),
    "net_pull": ("net pull of the tractor", "drawbar pull + the tractor's part of the grade"),
    "slip_balance": ("balance that gives slip", "gross traction - motion resistance over all axles = net pull"),
    "axle_force": ("force of the driven axles", "gross traction of the driven axles, losses inside belts included"),
    "pto_power": ("PTO power", "axle power / share of PTO power that reaches the axles"),
    "engine_load": ("engine load", "PTO power / rated PTO power"),
    "engine_power": ("engine power", "PTO power * engine power for each unit of PTO power"),
}
_QUOTIENTS = {"pto_power": " / ", "engine_load": " / ", "engine_power": " * "}
_TERMS = {
    "own_draft": "draft of the tool itself",
    "rolling_resistance": "rolling resistance of the implement's wheels", "grade_resistance": "part of the grade",
    "axle_ratio": "share of PTO power that reaches the axles", "engine_per_pto": "engine power for each unit of PTO power",
    "pto_power": "PTO power", "rated_pto_power": "rated PTO power",
}  # fmt: skip


def working_steps(answer: Answer, units: System) -> tuple[Working, ...]:
    """Say every step of an answer's working, in the order of the story: from the soil's texture to the chance."""
    found = steps(answer.bare_rig)
    worked = (_equation(step, units) if isinstance(step, Step) else _sum(step, answer, units) for step in found)
    return (*_looked_up(answer, found), *worked, *chance_steps(answer, units))


def _looked_up(answer: Answer, found: Sequence[Step | Sum]) -> Iterator[Working]:
    """Say which row of the draft table gives the soil factor of each step that takes one: the tool's, and where it works deep
    the one that it then pulls like."""
    rig = answer.rig
    tools = [rig.implement.tool]
    if answer.bare_rig.deep_from is not None and float(deep_most(answer.bare_rig)) > 0:
        tools.append(table("d497_draft")[rig.implement.tool]["second_opinion"])
    taking = [
        step for step in found if isinstance(step, Step) and any(symbol.name == "soil_factor" for symbol in step.equation.takes)
    ]
    for tool, step in zip(tools, taking, strict=False):  # gangs come after them, each by its own row
        place = [symbol.name for symbol in step.equation.takes].index("soil_factor")
        yield _row(rig, tool, step.values[place])


def _row(rig: Rig, tool: str, factor: float) -> Working:
    rows = table("d497_draft")
    row, texture = rows[tool], texture_of(rig)
    columns = {name: f"{row[f'{name}_si']:g}" for name in "abc"}
    factors = {name: f"{row[f'f_{name}']:g}" for name in ("fine", "medium", "coarse")}
    group, other = soil_group_of(rig), other_soil_group_of(rig)
    by = "as typed" if rig.ground.soil_group else "by the table soil_groups"
    also = "" if group == other else f"; some texts call it {other}"
    return Working(
        equation="d497_draft",
        title=f"the draft table's row{'' if tool == rig.implement.tool else ' for deep work'}, looked up",
        latex="",
        latex_numbers="",
        text=f"{row['title']}: A = {columns['a']}, B = {columns['b']}, C = {columns['c']} in {row['unit_si']} and km/h; "
        f"F is {factors['fine']} for fine soil, {factors['medium']} for medium, {factors['coarse']} for coarse",
        text_numbers=f"F of {group} soil",
        result=plain(factor),
        inputs=(
            f"tool: {row['title']}; draft scatters by {row['range_percent']:g} % either way",
            f"soil texture: {texture}, {group} soil {by}{also}",
        ),
        source=f"{rows.source}, {rows.where}",
        sure=rows.sure_of(row),
        gives="soil_factor",
    )


def _equation(step: Step, units: System) -> Working:
    eq = step.equation
    made = working(eq, dict(zip((symbol.name for symbol in eq.takes), step.values, strict=True)))
    inputs = []
    for symbol, value in zip(eq.takes, step.values, strict=True):
        means = _MEANS.get((eq.__name__, step.of, symbol.name), symbol.text)
        covers = _covered(eq.valid.get(symbol.name), float(value), symbol.unit, units)
        inputs.append(spelt(f"{symbol.name} = {both(value, symbol.unit, units)}: {means}{covers}", units))
    title = made.title.replace("def ", "exhaust fluid ") if made.title.startswith("def ") else made.title
    return replace(
        made,
        title=f"{title}, {_of(step.of)}" if step.of and _of(step.of) not in title else title,
        inputs=tuple(inputs),
        result=both(float(eq.bare(*step.values)), eq.gives.unit, units),
    )


def _covered(valid: tuple[float, float] | None, value: float, unit: str, units: System) -> str:
    """Say for which values the source of a formula holds; "" where it names none."""
    if valid is None:
        return ""
    low, high = valid
    said = f"; the source covers {both(low, unit, units)} to {both(high, unit, units)}"
    return said if low <= value <= high else f"{said}, which this is outside of"


def _sum(found: Sum, answer: Answer, units: System) -> Working:
    title, text = _SUMS[found.name]
    sign = _QUOTIENTS.get(found.name, " + ")
    numbers = sign.join(plain(value) for _, value, _ in found.terms).replace("+ -", "- ")
    if found.name == "slip_balance":
        text = f"{text}: it holds at a slip of {plain(100 * float(answer.point.bare.slip))} %"
    inputs = tuple(f"{_term(name)} = {both(value, unit, units)}" for name, value, unit in found.terms)
    result = f"{plain(100 * found.value)} %" if found.unit == "1" else both(found.value, found.unit, units)
    check = of_terms([unit for *_, unit in found.terms], sign, found.unit)
    return Working(found.name, title, "", "", text, numbers, result, inputs, "From the steps above", "computed", found.name,
                   dimensions=check)  # fmt: skip


def _of(name: str) -> str:
    """Name the axle or body, or the gang by its row of the draft table."""
    return _OF.get(name) or gang_name(name)


def _term(name: str) -> str:
    return _TERMS.get(name, name.replace("_", " "))
