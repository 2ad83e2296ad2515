"""The answer as JSON-ready data: stable names, every number with its unit; what can't be a number is null."""

from __future__ import annotations

from typing import Any

from rigcalc.core.working import Working
from rigcalc.models.machine.curves import WITHIN
from rigcalc.models.machine.operating_point import UNITS
from rigcalc.models.size.answer import Answer
from rigcalc.models.size.first import Doubt, Outcome
from rigcalc.views.json.field import told_data
from rigcalc.views.json.numbers import number
from rigcalc.views.json.said import said_data
from rigcalc.views.json.wetness import wetness_data
from rigcalc.words.dimensions import dimensions_said
from rigcalc.words.size import SizeWords
from rigcalc.words.solved import solved_line

VERSION = 1  # raised when a name or a unit changes


def answer_data(words: SizeWords, with_working: bool = False, solve_for: str = "") -> dict[str, Any]:
    """Give nested dicts and lists. Numbers stand as {"value": 12.3, "unit": "kN"}; a share has the unit "1"."""
    answer, said = words.answer, words.said
    data: dict[str, Any] = {
        "version": VERSION,
        "rig": answer.rig.model_dump(mode="json", exclude_none=True),
        **said_data(said),
        "verdict": answer.verdict.judgement.value,
        "state": answer.verdict.state.value,
        "works": answer.works,
        "pulls": answer.pulls,
        "point": {name: number(getattr(answer.point.bare, name), unit) for name, unit in UNITS.items()},
        "margins": [
            {"name": m.name, "title": w.title, "value": number(m.value, m.unit), "limit": number(m.limit, m.unit),
             "used": number(m.used, "1"), "state": m.state, "hard": m.hard, "source": w.source}
            for m, w in zip(answer.margins, words.margins, strict=True)
        ],
        "binding": answer.binding.name,
        "reverse": [
            {"question": r.question, "value": number(r.value, r.unit), "binds": r.binds, "uncut": number(r.uncut, r.unit),
             "text": w.text}
            for r, w in zip(answer.reverse, words.reverse, strict=True)
        ],
        "sure": _sure(answer),
        "best_slip": {end: number(value, "1") for end, value in zip(("low", "best", "high"), answer.best_slip, strict=True)}
        | {"within": number(1 - WITHIN, "1")},
        "second_opinion": None if answer.second_opinion is None else {
            "row": answer.second_opinion.row, "draft": number(answer.second_opinion.draft, "kN"),
            "engine_share": number(answer.second_opinion.engine_share, "1"), "goes": answer.second_opinion.goes,
        },
        "season": None if answer.season is None else {
            "area_per_day": number(answer.season.area_per_day, "ha/day"),
            "fuel_per_day": number(answer.season.fuel_per_day, "L/day"),
            "def_per_day": number(answer.season.def_per_day, "L/day"),
            "fillings_per_day": number(answer.season.fillings_per_day, "1/day"),
            "days_needed": number(answer.season.days_needed, "day"),
            "days_there_are": number(answer.season.days_there_are, "day"),
            "days_in_hand": number(answer.season.days_in_hand, "day"),
        },
        "notes": list(words.notes),
        "assumed": [{"entry": t.entry, "value": t.value, "rule": t.rule, "source": t.source} for t in answer.rig.assumed],
        "measure_first": [
            {"entry": d.entry, "given": d.given, "do": w.do, "text": w.line, "here": _outcome(d, d.here), "ends": [
                _outcome(d, end) for end in d.ends],
             "verdicts": [judgement.value for judgement in d.verdicts], "chance": d.chance, "slip": number(d.slip, "1"),
             "engine_load": number(d.engine_load, "1"), "out_of_reach": d.out_of_reach, "matters": d.matters,
             "source": d.source, "sure": d.sure}
            for d, w in zip(answer.measure_first, words.first, strict=True)
        ],
        "cautions": list(words.cautions),
    }  # fmt: skip
    if answer.wetness is not None:
        data["wetness"] = wetness_data(answer.wetness)
    if (told := answer.bare_rig.told) is not None and answer.before is not None:
        before = answer.before
        data["readings"] = told_data(told)
        data["before"] = {
            "verdict": before.verdict.judgement.value, "state": before.verdict.state.value,
            "point": {name: number(getattr(before.point.bare, name), unit) for name, unit in UNITS.items()},
            "reverse": [{"question": r.question, "value": number(r.value, r.unit), "binds": r.binds} for r in before.reverse],
            "sure": _sure(before),
        }  # fmt: skip
    if with_working:
        data["working"] = [_worked(step, solve_for) for step in words.working]
    return data


def _worked(step: Working, solve_for: str) -> dict[str, Any]:
    check = step.dimensions
    made: dict[str, Any] = {
        "equation": step.equation, "formula": step.text, "latex": step.latex, "numbers": step.text_numbers,
        "result": step.result, "inputs": list(step.inputs), "source": step.source, "sure": step.sure,
        "dimensions": check and {"units": check.text, "agree": check.agree, "text": dimensions_said(check)},
    }  # fmt: skip
    return made | ({"solved": solved_line(step, solve_for) or None} if solve_for else {})


def _outcome(doubt: Doubt, outcome: Outcome) -> dict[str, Any]:
    value = outcome.value if isinstance(outcome.value, str) else number(outcome.value, doubt.unit or "1")
    return {"value": value, "verdict": outcome.judgement.value, "state": outcome.state.value, "chance": outcome.chance,
            "slip": number(outcome.slip, "1"), "engine_share": number(outcome.engine_share, "1")}  # fmt: skip


def _sure(answer: Answer) -> dict[str, Any]:
    return {
        "chance_pulls": answer.sure.chance_pulls, "chance_works": answer.sure.chance_works, "seed": answer.sure.seed,
        "bands": {name: {"low": number(low, unit), "middle": number(middle, unit), "high": number(high, unit)}
                  for name, (low, middle, high, unit) in answer.sure.bands.items()},
    }  # fmt: skip
