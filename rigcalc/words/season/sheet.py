"""The season on the setup sheet: a few lines of one rig's season, where a plan is there."""

from __future__ import annotations

from rigcalc.core.errors import Fault, InputError
from rigcalc.models.rig.rig import Rig
from rigcalc.models.season.answer import SeasonAnswer
from rigcalc.words.numbers import System, capital, percent
from rigcalc.words.season.answer import SeasonWords
from rigcalc.words.season.sentence import days_rest_on


def season_lines(found: SeasonAnswer, rig: Rig, units: System) -> tuple[str, ...]:
    """Say what a cab needs of a season: is it done in time, the day, its parts, fuel, cost, whose days these are.

    Raises InputError for a season of another rig than the sheet's, or of several.
    """
    if [one.rig for one in found.rigs] != [rig]:
        got = "a season of several rigs" if len(found.rigs) > 1 else "a season of another rig"
        raise InputError([Fault("season", got, "the season of this sheet's rig alone")])
    words = SeasonWords(found, units)
    (one,) = found.rigs
    lines = [f"{words.said.word}: {words.said.headline}", *words.said.rest[1:]]
    lines += [words.day_lines(one)[0]]
    if bars := words.bars(one):
        lines.append("; ".join(f"{bar.title} {bar.text} ({percent(bar.share)})" for bar in bars))
        lines.append(words.day_lines(one)[-1])
    if costs := words.costs(one):
        lines.append(f"Costs {costs[-1][1]}, {costs[-1][2]} a field hour")
    lines.append(days_rest_on(found, units)[0])
    return tuple(capital(line) for line in lines)
