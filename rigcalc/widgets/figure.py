"""A picture on the page: a plain plotly description, one shared copy of plotly's script, a table beside it.

plotly's Python package is not imported here: its own widget costs a kernel seconds and sends 5 MB a picture.
`plotly_figure(spec)` gives the same description as an ordinary plotly figure.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import Any

import numpy as np
import traitlets

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.widgets.colours import LIGHT
from rigcalc.widgets.figure_script import plotly_script
from rigcalc.widgets.model import AppModel
from rigcalc.widgets.one_layout import one_layout
from rigcalc.widgets.part import Part, script


class Figure(Part):
    """Shows what `describe()` gives, anew after every change, under its title and above the table that says the same.

    `write_twin()` gives that table as HTML; it is made only once its fold was opened. `on_tap(x, y, live)` gets a tap in the
    picture's own units, or where the point is dragged to while it is `live`.

    A description is plotly's `data` and `layout`, and perhaps `ground`: how many of the first traces stay the same objects
    as long as they look the same; perhaps `point`, the chosen point, which can then be dragged; and perhaps
    `top`, the room in px that it needs above its axes on a page, where the legend stands outside it.
    """

    _esm = script("legend.js", "handle.js", "figure.js")
    spec = traitlets.Dict().tag(sync=True)
    ground: traitlets.List[Any] = traitlets.List().tag(sync=True)
    label = traitlets.Unicode("").tag(sync=True)
    note = traitlets.Unicode("").tag(sync=True)
    twin = traitlets.Unicode("").tag(sync=True)
    has_twin = traitlets.Bool(False).tag(sync=True)
    taps = traitlets.Bool(False).tag(sync=True)

    def __init__(
        self,
        model: AppModel,
        describe: Callable[[], Mapping[str, Any]],
        label: str,
        on_tap: Callable[[float, float, bool], None] | None = None,
        write_twin: Callable[[], str] | None = None,
        note: str = "",
    ):
        self.model, self.describe, self.on_tap, self.write_twin = model, describe, on_tap, write_twin
        self.twin_wanted = False
        self._traces: list[Any] = []
        super().__init__(layout=one_layout(), label=label, note=note, taps=on_tap is not None, has_twin=write_twin is not None)
        self.on_msg(self._heard)
        model.watch(self.refresh, label)

    def refresh(self) -> None:
        """Describe the picture anew, and write its table anew if it was opened."""
        spec = self.describe()
        count = spec.get("ground", 0)
        traces = spec["data"][:count]
        # What hasn't changed isn't sent again, and plotly doesn't work it out again.
        with self.hold_sync():
            if [id(trace) for trace in traces] != [id(trace) for trace in self._traces]:
                self._traces, self.ground = traces, packed(traces)
            self.spec = packed({**spec, "data": spec["data"][count:]})
        if self.twin_wanted and self.write_twin is not None:
            self.twin = self.write_twin()

    def open_twin(self) -> None:
        """Make the table, now that somebody wants to see it."""
        self.twin_wanted = True
        self.refresh()

    def _heard(self, _widget: object, message: Mapping[str, Any], _buffers: object) -> None:
        if not isinstance(message, Mapping):
            return
        if message.get("kind") == "plotly":
            self.send({"kind": "plotly"}, buffers=[plotly_script().read_bytes()])
        elif message.get("kind") == "twin":
            self.model.guarded(self.open_twin, self.label)()
        elif message.get("kind") == "tap" and self.on_tap is not None:
            self.model.guarded(self._tapped, self.label)(message)
            self.send({"kind": "done"})

    def _tapped(self, message: Mapping[str, Any]) -> None:
        x, y = (message.get(name) for name in "xy")
        if not (isinstance(x, int | float) and isinstance(y, int | float) and math.isfinite(x) and math.isfinite(y)):
            raise InputError([Fault(self.label, shown((x, y)), "a place in the picture", "a tap inside its axes")])
        assert self.on_tap is not None
        self.on_tap(float(x), float(y), bool(message.get("live")))


def packed(value: Any) -> Any:
    """Replace arrays by their float32 bytes, which is what travels to the browser; the rest stays as it is."""
    if isinstance(value, np.ndarray):
        if value.ndim not in (1, 2):
            raise ValueError(f"a picture takes arrays of one or two dimensions, not {value.ndim}")
        if not np.issubdtype(value.dtype, np.number):
            return value.tolist()
        return {"@f4": np.ascontiguousarray(value, dtype="<f4").tobytes(), "shape": list(value.shape)}
    if isinstance(value, Mapping):
        return {key: packed(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [packed(item) for item in value]
    return value.item() if isinstance(value, np.generic) else value


def painted(value: Any, colours: Mapping[str, str] = LIGHT) -> Any:
    """Replace the names of the page's colours (`@ink`, `@signal/30`) by colours that plotly reads."""
    if isinstance(value, str) and value.startswith("@"):
        name, _, share = value[1:].partition("/")
        red, green, blue = (int(colours[name][i : i + 2], 16) for i in (1, 3, 5))
        return f"rgba({red},{green},{blue},{float(share) / 100 if share else 1:g})"
    if isinstance(value, Mapping):
        return {key: painted(item, colours) for key, item in value.items()}
    return [painted(item, colours) for item in value] if isinstance(value, list | tuple) else value


def plotly_figure(spec: Mapping[str, Any]) -> Any:
    """Give a description as an ordinary plotly figure, light colours, for a notebook or a file."""
    import plotly.graph_objects as go

    return go.Figure(painted({"data": spec["data"], "layout": spec["layout"]}))
