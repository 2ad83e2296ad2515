"""A picture of each widget by itself, for docs/widgets.md: `uv run python -m docs.pictures.gallery`; needs chromium."""

from __future__ import annotations

import json
import sys
import tempfile
from pathlib import Path

from docs.pictures.make import CHROMIUM, HERE, running_app, small

# name: what it is made of
MADE = {
    "QuantityEntry": 'QuantityEntry("12 in", low=4, high=20, step=0.5, usual=(8, 14), description="How deep")',
    "PictureChoice": 'PictureChoice([("a", "shallow"), ("b", "deep")], description="How it is worked")',
    "RigForm": 'RigForm(model, "work.depth", "ground.texture")',
    **{name: f"{name}(model)" for name in "RigChoice RigCard FileCard LinkCard AnswerCard CabCard Gauges SideDrawing".split()},
    **{name: f"{name}(model)" for name in "LimitsMap PowerFlow SlipCurve AxleLoads ChanceByDepth".split()},
    **{name: f"{name}(model)" for name in "ReachCard NumbersTable WorkingSteps StepCard PictureStrip".split()},
    **{name: f"{name}(model)" for name in "SheetCard NotesCard FirstCard".split()},
    "KeptCard": "(lambda card: (card.keep(), card.model.edit({'work.depth': '12 in'}), card)[-1])(KeptCard(SizeModel()))",
}
_WEIGHT = "WeightAnswer MassBars WeightFigures WeightPlan WeightLimits MassCurve WeightJobs WeightAdvice TyrePressures"
_MORE_WEIGHT = "WeightGears WeightWorking WeightSheet WeightNotes"
_SEVERAL = "CompareAnswer CompareReasons CompareCards CompareRows CompareCost CompareLimits CompareTables"
MADE |= {name: f"{name}(weight)" for name in f"{_WEIGHT} {_MORE_WEIGHT}".split()}
MADE |= {name: f"{name}(several)" for name in _SEVERAL.split()}
_FIELD = (
    "ReadingBox ReadingLog ReadingAnswer ReadingSays ReadingList ReadingChanges ReadingTold ReadingNext ReadingZones "
    "ReadingRecord"
)
MADE |= {name: f"{name}(field)" for name in (*_FIELD.split(), "BeforeAfter")}
MADE |= {"PracticeCard": 'PracticeCard("drawbar_power", "slip_from_turns")'}
_GROUND = "SoilAnswer SoilWeather SoilQuestions SoilPicture SoilDepth SoilTool SoilPressing SoilWhere SoilResidue SoilNotes"
MADE |= {name: f"{name}(soil)" for name in _GROUND.split()}
_SEASON = (
    "SeasonVerdict SeasonBox SeasonWeather SeasonSays SeasonDay SeasonDone SeasonChanges SeasonCost SeasonMoney SeasonNotes"
)
MADE |= {name: f"{name}(season)" for name in _SEASON.split()}
_FIELDS = "FieldsVerdict FieldsFile FieldsPicture FieldsSays FieldsTable FieldsTake FieldsNotes"
MADE |= {name: f"{name}(passes)" for name in _FIELDS.split()}
START = (
    "import ipywidgets\nfrom rigcalc.widgets import *\nmodel = SizeModel()\nweight = BallastModel()\n"
    'several = CompareAnswer(["front_wheel_assist", "two_wheel_drive"]).model\n'
    "several.edit({'season.money.tractor_price': '150000; 120000', 'season.money.tool_price': '40000'})\n"
    "several.edit({'season.money.fuel_price': '3.50 per gal', 'season.area': '640 acre', 'season.days.share': '60 percent'})\n"
    "several.edit({'season.start': '1 Oct', 'season.by': '15 Nov'})\n"
    "passes = PassesModel()\n"
    "field = FieldModel()\nbox = ReadingBox(field)\n"
    'season = SeasonBox("articulated").model\nseason.edit({"own.season.start": "1 Oct", "own.season.by": "15 Nov"})\n'
    "for name, text in (('tractor_price', '400000'), ('tool_price', '80000'), ('fuel_price', '3.50 per gal')):\n"
    "    season.edit({f'own.season.money.{name}': text})\n"
    'box.type(depth="10", speed="5.1", slip="7", load="80", load_of="available", date="2026-11-04")\nbox.add()\n'
    "soil = GroundModel()\nflags = '7 11 340,8 12 350,none,6 9 330,7 10 360,8 11 400,7 9 320,8 10 350'.replace(',', chr(10))\n"
    "soil.edit({'ground.flags': flags, 'ground.thread_test': 'crumbles', 'ground.residue_cover': '85 percent'})\n"
    "soil.edit({'ground.residue_keep': '30 percent', 'ground.field': '2600 ft by 1300 ft'})\n"
)


def notebook() -> str:
    """Give a notebook that shows every widget, each with a class of its name."""
    shown = ", ".join(f"named({name!r}, {made})" for name, made in MADE.items())
    named = "def named(name, widget):\n    widget.add_class(f'shown-{name}')\n    return widget\n"
    cell = {"cell_type": "code", "execution_count": None, "id": "all", "metadata": {}, "outputs": []}
    cells = [{**cell, "source": f"{START}{named}ipywidgets.VBox([{shown}])"}]
    about = {"kernelspec": {"display_name": "Python 3", "language": "python", "name": "python3"}}
    return json.dumps({"cells": cells, "metadata": about, "nbformat": 4, "nbformat_minor": 5})


def main() -> None:
    """Take and write the picture of every widget."""
    if not CHROMIUM.exists():
        sys.exit("needs chromium: apt-get install -y chromium")
    from playwright.sync_api import sync_playwright

    folder = HERE / "widgets"
    folder.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as apps, sync_playwright() as playwright:
        (Path(apps) / "gallery.ipynb").write_text(notebook(), encoding="utf-8")
        with running_app(Path(apps)) as address:
            browser = playwright.chromium.launch(
                executable_path=str(CHROMIUM), args=["--no-sandbox", "--disable-dev-shm-usage"]
            )
            page = browser.new_page(viewport={"width": 700, "height": 900}, reduced_motion="reduce")
            page.goto(f"{address}app/gallery")
            page.locator(f".shown-{list(MADE)[-1]}").wait_for(timeout=120_000)
            for name in sys.argv[1:] or MADE:
                shown = page.locator(f".shown-{name}")
                shown.evaluate("element => element.scrollIntoView({ block: 'start' })")
                if shown.locator(".rig-plot").count():
                    shown.locator(".rig-plot[data-drawn]").wait_for(timeout=30_000)
                page.wait_for_timeout(300)
                kept = small(shown.screenshot())
                (folder / f"{name}.png").write_bytes(kept)
                print(f"{name}.png: {len(kept):,} bytes")  # noqa: T201
            browser.close()


if __name__ == "__main__":
    main()
