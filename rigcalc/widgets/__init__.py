"""Widgets for notebooks: entries with units, answers, pictures. Each stands alone in a cell, and pages are built of them.

Of no question: `QuantityEntry`, `PictureChoice`, `Figure`; `App`, `AppModel`, `Form`, `Panel` and `Picture`, of which pages are
made.

About a sizing, each of a rig, its file, a demo rig's name, or the `SizeModel` that others show too: `AnswerCard`, `CabCard`,
`Gauges`, `SideDrawing`, `LimitsMap`, `PowerFlow`, `SlipCurve`, `AxleLoads`, `ChanceByDepth`, `ReachCard`, `NumbersTable`,
`FirstCard`, `WorkingSteps`, `StepCard`, `PictureStrip`, `NotesCard`, `KeptCard`, `SheetCard`;
`RigCard`, `RigForm`, `RigChoice`, `FileCard`, `LinkCard`;
`linked` ties an entry of one's own to one of the rig.

About weight, each of a rig or the `BallastModel` that others show too: `WeightAnswer`, `MassBars`, `WeightFigures`,
`WeightPlan`, `WeightLimits`, `MassCurve`, `WeightJobs`, `WeightAdvice`, `TyrePressures`, `WeightGears`, `WeightSheet`,
`WeightWorking`, `WeightNotes`.

About a comparison, each of a list of rigs or the `CompareModel` that others show too: `CompareAnswer`, `CompareReasons`,
`CompareCards`, `CompareRows`, `CompareLimits`, `CompareRigs`, `CompareTables`.

About readings from a field, each of a rig or the `FieldModel` that others show too: `ReadingBox`, `ReadingLog`,
`ReadingAnswer`, `ReadingSays`, `ReadingList`, `BeforeAfter`, `ReadingChanges`, `ReadingTold`, `ReadingNext`, `ReadingZones`,
`ReadingRecord`.

`PracticeCard` asks problems and marks what is typed.

`SizeApp`, `BallastApp`, `FieldApp`, `TeachApp`, `CompareApp` and `OwnApp` are whole pages, `RigPages` all of them
at one address.

Each name is loaded when it is first asked for. docs/widgets.md shows how they are put together.
"""

from __future__ import annotations

from importlib import import_module
from typing import Any

# The one place where a row names one above it: this is the window of the toolkit, and nothing of the package looks through
# it (docs/decisions/0016).
_HERE = {
    **{"QuantityEntry": "quantity", "PictureChoice": "choice", "Figure": "figure", "Picture": "figure"},
    **{"App": "app", "AppModel": "model", "save_page": "static", "Form": "controls", "Panel": "panel"},
}
_ABOUT_SIZE = {
    **dict.fromkeys(
        "AnswerCard CabCard Gauges SideDrawing ReachCard NumbersTable FirstCard WorkingSteps NotesCard SheetCard".split(),
        "cards",
    ),
    **dict.fromkeys("LimitsMap PowerFlow SlipCurve AxleLoads ChanceByDepth".split(), "picture"),
    **dict.fromkeys("RigCard RigForm RigChoice FileCard LinkCard linked".split(), "rig_parts"),
    **{"SizeModel": "model", "SizeApp": "app", "KeptCard": "kept"},
    **{"StepCard": "teaching", "PictureStrip": "teaching", "TeachApp": "teach_app"},
}
_ABOUT_COMPARE = {
    **dict.fromkeys("CompareAnswer CompareReasons CompareCards CompareRows CompareRigs CompareTables".split(), "cards"),
    **{"CompareLimits": "picture", "CompareCost": "costs", "CompareModel": "model", "CompareApp": "app"},
}
_ABOUT_WEIGHT = {
    **dict.fromkeys("MassBars MassCurve WeightAdvice WeightAnswer WeightFigures WeightJobs WeightLimits".split(), "cards"),
    **dict.fromkeys("WeightNotes WeightPlan WeightWorking".split(), "cards"),
    **dict.fromkeys("TyrePressures WeightGears WeightSheet".split(), "field_cards"),
    **{"BallastApp": "app", "BallastModel": "model"},
}
_ABOUT_READINGS = {
    **dict.fromkeys(
        "ReadingAnswer ReadingSays ReadingList ReadingChanges ReadingTold ReadingNext ReadingZones ReadingRecord".split(),
        "cards",
    ),
    **{"ReadingBox": "box", "ReadingLog": "log_card", "BeforeAfter": "picture", "FieldModel": "model", "FieldApp": "app"},
}
_ABOUT_GROUND = {
    **dict.fromkeys(
        "SoilAnswer SoilQuestions SoilDepth SoilTool SoilPressing SoilWhere SoilResidue SoilNotes".split(), "cards"
    ),
    **{"SoilPicture": "picture", "SoilWeather": "weather", "GroundModel": "model", "GroundApp": "app"},
}
_ABOUT_SEASON = {
    **dict.fromkeys("SeasonVerdict SeasonBox SeasonSays SeasonChanges SeasonMoney SeasonNotes".split(), "cards"),
    **dict.fromkeys(("SeasonDay", "SeasonDone", "SeasonCost"), "pictures"),
    **{"SeasonWeather": "weather", "SeasonModel": "model", "SeasonApp": "app"},
}
_ABOUT_FIELDS = {
    **dict.fromkeys("FieldsVerdict FieldsFile FieldsPicture FieldsSays FieldsTable FieldsTake FieldsNotes".split(), "cards"),
    **{"PassesModel": "model", "PassesApp": "app"},
}
_WHERE = {
    **{name: f"rigcalc.widgets.{file}" for name, file in _HERE.items()},
    **{name: f"rigcalc.views.size.{file}" for name, file in _ABOUT_SIZE.items()},
    **{name: f"rigcalc.views.compare.{file}" for name, file in _ABOUT_COMPARE.items()},
    **{name: f"rigcalc.views.ballast.{file}" for name, file in _ABOUT_WEIGHT.items()},
    **{name: f"rigcalc.views.reading.{file}" for name, file in _ABOUT_READINGS.items()},
    **{"PracticeCard": "rigcalc.views.classroom.practice"},
    **{name: f"rigcalc.views.ground.{file}" for name, file in _ABOUT_GROUND.items()},
    **{name: f"rigcalc.views.season.{file}" for name, file in _ABOUT_SEASON.items()},
    **{name: f"rigcalc.views.passes.{file}" for name, file in _ABOUT_FIELDS.items()},
    **{"RigPages": "rigcalc.views.pages", "OwnApp": "rigcalc.views.own.app", "Pages": "rigcalc.widgets.pages"},
}
__all__ = sorted(_WHERE)


def __getattr__(name: str) -> Any:
    """Load a widget when it is first asked for, so that whoever needs none loads none."""
    if name not in _WHERE:
        raise AttributeError(f"module 'rigcalc.widgets' has no attribute {name!r}; it has {', '.join(__all__)}")
    return getattr(import_module(_WHERE[name]), name)


def __dir__() -> list[str]:
    return __all__
