"""A picture: a plain plotly description, one shared copy of plotly's script, a table beside it.

plotly's Python package is not imported here: its own widget costs a kernel seconds and sends 5 MB a picture.
`plotly_figure(spec)` gives the same description as an ordinary plotly figure, and `Figure` shows an ordinary one.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import Any

import numpy as np
import traitlets

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.widgets.colours import LIGHT
from rigcalc.widgets.figure_holder import holder, served, watched_by
from rigcalc.widgets.model import AppModel, faults_of
from rigcalc.widgets.part import Part, script


class Figure(Part):
    """Shows a picture: an ordinary plotly figure, or a description.

    A description is plotly's `data` and `layout`, and perhaps `ground`: how many of the first traces stay the same objects
    as long as they look the same; perhaps `point`, the chosen point, which can then be dragged; and perhaps
    `top`, the room in px that it needs above its axes on a page, where the legend stands outside it. Its colours are names of
    the look's own (`@ink`, `@signal/30`), so that it follows light and dark.

    Parameters
    ----------
    figure : plotly Figure or mapping
        What to show; `figure` can be set anew at any time. None shows nothing yet.
    label : str
        The title, and what a screen reader says.
    note : str
        A line under the title.
    on_tap : callable
        Gets `(x, y, live)` for a tap in the picture's own units, or where the point is dragged to while it is `live`.
    write_twin : callable
        Gives the table that says the same as HTML; it is made only once its fold was opened.

    Raises
    ------
    InputError
        For a figure that is neither.

    Examples
    --------
    >>> picture = Figure({"data": [{"x": [1, 2], "y": [3, 5]}], "layout": {}}, label="Draft over depth")
    >>> picture.spec["data"][0]["y"]
    [3, 5]
    """

    _esm = script("wear.js", "legend.js", "handle.js", "figure.js")
    spec = traitlets.Dict().tag(sync=True)
    ground: traitlets.List[Any] = traitlets.List().tag(sync=True)
    label = traitlets.Unicode("").tag(sync=True)
    note = traitlets.Unicode("").tag(sync=True)
    twin = traitlets.Unicode("").tag(sync=True)
    has_twin = traitlets.Bool(False).tag(sync=True)
    taps = traitlets.Bool(False).tag(sync=True)
    held_by = traitlets.Unicode("").tag(sync=True)  # the widget that holds plotly's script, where no server of ours gives it

    def __init__(
        self,
        figure: Any = None,
        label: str = "",
        on_tap: Callable[[float, float, bool], None] | None = None,
        write_twin: Callable[[], str] | None = None,
        note: str = "",
        **traits: Any,
    ):
        self.on_tap, self.write_twin = on_tap, write_twin
        self.twin_wanted = False
        self._traces: list[Any] = []
        self._figure: Any = None
        super().__init__(label=label, note=note, taps=on_tap is not None, has_twin=write_twin is not None, **traits)
        watched_by(self)
        if (self.model is None or not self.model.dressed) and not served():
            holder()  # a notebook saves it along, so that the picture stands where no kernel runs
        self.on_msg(self._heard)
        if figure is not None:
            self.figure = figure

    @property
    def figure(self) -> Any:
        """What is shown, as it was given."""
        return self._figure

    @figure.setter
    def figure(self, figure: Any) -> None:
        self.show(described(figure))
        self._figure = figure

    def show(self, spec: Mapping[str, Any]) -> None:
        """Show a description. What hasn't changed isn't sent again, and plotly doesn't work it out again."""
        count = spec.get("ground", 0)
        traces = spec["data"][:count]
        with self.hold_sync():
            if [id(trace) for trace in traces] != [id(trace) for trace in self._traces]:
                self._traces, self.ground = traces, packed(traces)
            self.spec = packed({**spec, "data": spec["data"][count:]})
        if self.twin_wanted and self.write_twin is not None:
            self.twin = self.write_twin()

    def open_twin(self) -> None:
        """Make the table, now that somebody wants to see it."""
        self.twin_wanted = True
        if self.write_twin is not None:
            self.twin = self.write_twin()

    def complete(self) -> None:
        """Make the table too."""
        self.open_twin()

    def _heard(self, _widget: object, message: Mapping[str, Any], _buffers: object) -> None:
        if not isinstance(message, Mapping):
            return
        if message.get("kind") == "plotly":
            holder()
        elif message.get("kind") == "twin":
            self._guarded(self.open_twin)
        elif message.get("kind") == "tap" and self.on_tap is not None:
            self._guarded(self._tapped, message)
            self.send({"kind": "done"})

    def _guarded(self, act: Callable[..., None], *given: Any) -> None:
        """Do what somebody did in the browser; what goes wrong is said on the page, by itself under the title."""
        if self.model is not None:
            self.model.guarded(act, self.label)(*given)
            return
        try:
            act(*given)
        except Exception as error:
            self.note = "; ".join(str(fault) for fault in faults_of(error, self.label))

    def _tapped(self, message: Mapping[str, Any]) -> None:
        x, y = (message.get(name) for name in "xy")
        if not (isinstance(x, int | float) and isinstance(y, int | float) and math.isfinite(x) and math.isfinite(y)):
            raise InputError([Fault(self.label, shown((x, y)), "a place in the picture", "a tap inside its axes")])
        assert self.on_tap is not None
        self.on_tap(float(x), float(y), bool(message.get("live")))


class Picture(Figure):
    """A figure that follows a model: shows what `describe()` gives, anew after every change."""

    model: AppModel

    def __init__(self, model: AppModel, describe: Callable[[], Mapping[str, Any]], label: str, *given: Any, **traits: Any):
        self.model, self.describe = model, describe
        super().__init__(None, label, *given, **traits)
        self.watch(self.refresh, label)

    def refresh(self) -> None:
        """Describe the picture anew, and write its table anew if it was opened."""
        self.show(self.describe())


def described(figure: Any) -> Mapping[str, Any]:
    """Give the description of an ordinary plotly figure, or a description as it is. Raises InputError for anything else."""
    if hasattr(figure, "to_plotly_json"):
        return {**figure.to_plotly_json(), "plain": True}
    if (
        isinstance(figure, Mapping)
        and isinstance(figure.get("data"), list | tuple)
        and isinstance(figure.get("layout"), Mapping)
    ):
        return figure
    example = 'Figure({"data": [{"x": [1, 2], "y": [3, 5]}], "layout": {}})'
    raise InputError([Fault("figure", shown(figure), "a plotly figure, or a mapping with its data and layout", example)])


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
