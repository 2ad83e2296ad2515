"""A very small app on the framework, for the tests of the framework itself."""

from typing import ClassVar

import numpy as np

from rigcalc.core.errors import Fault, InputError
from rigcalc.core.units import factor, parse
from rigcalc.widgets.app import App
from rigcalc.widgets.controls import Form
from rigcalc.widgets.fields import Choice, Number, Scale, Section, Text
from rigcalc.widgets.figure import Picture
from rigcalc.widgets.html import esc, table
from rigcalc.widgets.model import AppModel
from rigcalc.widgets.panel import Panel

FIELDS = (
    Number("depth", "Depth", Scale("in", 2, 20, 0.5), Scale("cm", 5, 50, 1), "How deep"),
    Number("speed", "Speed", Scale("mph", 2, 8, 0.25), Scale("km/h", 3, 13, 0.5)),
    Choice("soil", "Soil", (("1", "soft"), ("2", "hard"))),
    Text("name", "Name"),
)


class TinyModel(AppModel):
    defaults: ClassVar = {"depth": "8 in", "speed": "5 mph", "soil": "1", "name": "trial"}
    short_names: ClassVar = {"depth": "depth", "speed": "speed"}

    def compute(self, inputs):
        faults, read = [], {}
        for path, unit in (("depth", "m"), ("speed", "m/s")):
            try:
                number, typed = parse(inputs[path])
                read[path] = number * factor(typed, unit)
            except InputError as error:
                faults += [Fault(path, fault.got, fault.expected, fault.type_this) for fault in error.faults]
        if inputs["name"] == "break it":
            raise RuntimeError("broken on purpose")
        if faults:
            raise InputError(faults)
        return {"pull": 100 * read["depth"] * read["speed"] * float(inputs["soil"]), **read}


class TinyApp(App):
    title = "Tiny"

    def parts(self):
        model = self.model
        answer = Panel(
            model, self.answer, "the answer", look="rig-answer rig-across", role="region", label="Answer", live="polite"
        )
        form = Form(model, (Section("Set it", FIELDS[:2]),), "Set it", folds=False)
        more = Form(model, (Section("Ground", FIELDS[2:], open=True),), "Ground")
        picture = Picture(model, self.picture, "Pull over depth and speed", on_tap=self.tap)
        return (
            answer,
            self.entries(form, more),
            picture,
            Panel(model, self.rows, "the table", role="region", label="Numbers of the trial"),
        )

    def answer(self):
        found = self.model.results
        if not found:
            return '<p class="rig-verdict is-none"><span class="rig-word">No answer</span></p>'
        return (
            '<p class="rig-verdict is-ok"><span class="rig-word">Pulls</span>'
            f'<span class="rig-sentence">{esc(self.model.inputs["name"])}: {found["pull"]:.2f} kN</span></p>'
        )

    def rows(self):
        found = self.model.results or {}
        return table("Numbers", ("What", "Value"), [(name, f"{value:.3f}") for name, value in found.items()])

    def picture(self):
        depth, speed = np.linspace(0.05, 0.5, 40), np.linspace(1, 3.5, 50)
        z = np.outer(depth, speed) * 100
        point = self.model.results or {"depth": None, "speed": None}
        return {
            "data": [
                {
                    "type": "heatmap",
                    "x": speed,
                    "y": depth,
                    "z": z,
                    "colorscale": [[0, "@scale1"], [1, "@scale5"]],
                    "hoverinfo": "none",
                },
                {
                    "type": "scatter",
                    "x": [point["speed"]],
                    "y": [point["depth"]],
                    "marker": {"size": 18, "color": "@signal"},
                },
            ],
            "layout": {"margin": {"l": 60, "r": 10, "t": 10, "b": 50}, "showlegend": False},
        }

    def tap(self, x, y, live):
        self.model.edit({"depth": f"{y:.3f} m", "speed": f"{x:.2f} m/s"})
