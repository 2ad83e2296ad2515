"""The same five pictures as the app, put together the ordinary way: plain sliders and plotly's own FigureWidgets."""

import ipywidgets
import plotly.graph_objects as go

from rigcalc.models import demo_rig, replaced, size
from rigcalc.views.figures import axle_loads, chance, limits_map, power_flow, slip_curve
from rigcalc.views.figures.widget import painted

PICTURES = (limits_map, power_flow, slip_curve, axle_loads, chance)


def page():
    rig = demo_rig()
    sliders = {
        "depth": ipywidgets.FloatSlider(value=12, min=2, max=24, step=0.5, description="Depth, in"),
        "speed": ipywidgets.FloatSlider(value=5.5, min=2, max=9, step=0.25, description="Speed, mph"),
    }
    said = ipywidgets.HTML(size(rig).sentence)
    figures = [go.FigureWidget(painted(picture.describe(size(rig)))) for picture in PICTURES]

    def redraw(_change):
        changes = {"work.depth": f"{sliders['depth'].value} in", "work.speed": f"{sliders['speed'].value} mph"}
        answer = size(replaced(rig, changes))
        said.value = answer.sentence
        for figure, picture in zip(figures, PICTURES, strict=True):
            spec = painted(picture.describe(answer))
            with figure.batch_update():
                for trace, new in zip(figure.data, spec["data"], strict=True):
                    trace.update({key: value for key, value in new.items() if key in ("x", "y", "z", "base")})
                # The marks and labels move with the point, as they do in the app.
                figure.layout.shapes = spec["layout"].get("shapes", ())
                figure.layout.annotations = spec["layout"].get("annotations", ())

    for slider in sliders.values():
        slider.observe(redraw, names="value")
    return ipywidgets.VBox([*sliders.values(), said, *figures])
