"""A shortlist as JSON-ready data: stable names, every number with its unit; what there isn't is null."""

from __future__ import annotations

from typing import Any

from rigcalc.models.size.answer import Answer
from rigcalc.views.json.numbers import number
from rigcalc.views.json.said import said_data
from rigcalc.words.shortlist import ShortlistWords

VERSION = 1  # raised when a name or a unit changes


def shortlist_data(words: ShortlistWords) -> dict[str, Any]:
    """Give nested dicts and lists."""
    found, said = words.shortlist, words.said
    return {
        "version": VERSION,
        **said_data(said),
        "verdict": found.judgement.value,
        "wet": None if found.wet is None else found.wet.value,
        "reserve": number(found.reserve, "1"),
        "seed": found.seed,
        "best": None if found.best is None else found.best.drive,
        "drives": [
            {"drive": fit.drive, "most_power": number(fit.most_power, "kW"), "smallest": _answer(fit.smallest),
             "surest": _answer(fit.surest), "at_most_power": {"limit": fit.binds, "used": number(fit.used, "1")}}
            for fit in found.fits
        ],
        "widest": {"widest": _answer(found.widest.widest), "surest": _answer(found.widest.surest), "limit": found.widest.binds},
        "notes": list(words.notes),
    }  # fmt: skip


def _answer(answer: Answer | None) -> dict[str, Any] | None:
    if answer is None:
        return None
    p, rig = answer.point.bare, answer.rig
    masses = rig.tractor.front_axle_mass.to("kg") + rig.tractor.rear_axle_mass.to("kg")
    return {
        "power": number(rig.tractor.rated_power.to("kW"), "kW"),
        "power_rating": rig.tractor.power_rating,
        "mass": number(masses, "kg"),
        "tools": rig.implement.tools,
        "width": number(p.width, "m"),
        "verdict": answer.verdict.judgement.value,
        "state": answer.verdict.state.value,
        "chance_works": number(answer.sure.chance_works, "1"),
        "engine_share": number(p.engine_share, "1"),
        "slip": number(p.slip, "1"),
        "assumed": [one.entry for one in rig.assumed],
        "rig": rig.model_dump(mode="json", exclude_none=True),
    }
