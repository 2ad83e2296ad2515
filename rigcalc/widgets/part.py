"""What every widget of a page has in common: after a change they travel to the browser together.

A page has some twenty parts. Sent one by one, each would cost the kernel, the server and the browser a message, and the
browser would paint several half-changed pages; together they are one message and one picture of the page.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import anywidget
import traitlets

from rigcalc.widgets.colours import LIGHT
from rigcalc.widgets.model import AppModel
from rigcalc.widgets.one_layout import one_layout
from rigcalc.widgets.page_look import look


def script(*names: str) -> str:
    """Give files of `browser/` as one script, the last of which exports what the widget does."""
    return "\n".join((Path(__file__).parent / "browser" / name).read_text(encoding="utf-8") for name in names)


class Part(anywidget.AnyWidget):
    """What every widget of rigcalc is. On a page it shares the page's look and layout; by itself it brings its own.

    `model` is what it shows, None where it is bound to none. `style` puts other colours in the place of the look's own, by
    the names of `colours.LIGHT`: `style={"signal": "#0b6e4f"}`. `disabled` greys it out and takes no entry.
    """

    model: AppModel | None = None
    style: traitlets.Dict[str, str] = traitlets.Dict(key_trait=traitlets.Enum(sorted(LIGHT)), value_trait=traitlets.Unicode())
    worn = traitlets.Dict().tag(sync=True)  # the style as the browser hears it: `style` itself is taken, by ipywidgets' models
    _watching: Sequence[Callable[[], None]] = ()  # here too: a widget that was refused half made is closed all the same
    disabled = traitlets.Bool(False).tag(sync=True)

    def __init__(self, **traits: Any):
        self._watching = []
        alone = self.model is None or not self.model.dressed
        if alone:
            self._css = look()
        else:
            traits.setdefault("layout", one_layout())
        super().__init__(**traits)
        if alone:
            self.add_class("rig-look")
            self.add_class("rig-alone")

    @traitlets.observe("style")
    def _restyled(self, change: Any) -> None:
        self.worn = dict(change.new)

    def watch(self, watcher: Callable[[], None], where: str) -> None:
        """Call `watcher` now and after every change of the model, until this widget is closed."""
        if self.model is not None:
            self._watching = [*self._watching, watcher]
            self.model.watch(watcher, where)

    def follow(self, model: AppModel) -> None:
        """Show another model from now on: whatever watched the old one watches it."""
        watching, self._watching = self._watching, []
        for watcher in watching:
            if self.model is not None:
                self.model.unwatch(watcher)
        self.model = model
        for watcher in watching:
            self.watch(watcher, type(self).__name__)

    def save(self, name: str, content: bytes, type: str) -> None:
        """Let the browser save a file, where the widget's script has `save.js`; only safe letters of the name are kept."""
        self.send({"kind": "save", "name": safe_name(name), "type": type}, buffers=[content])

    def complete(self) -> None:
        """Make what is otherwise made when somebody asks for it, so that the widget can be kept without its calculation."""

    def close(self) -> None:
        """Take the widget away; the model it showed goes on without it."""
        for watcher in self._watching:
            if self.model is not None:
                self.model.unwatch(watcher)
        self._watching = ()
        super().close()

    def _send(self, msg: dict[str, Any], buffers: Any = None) -> None:
        gathered = self.model.gathered if self.model is not None else None
        if gathered is None or msg.get("method") != "update":
            super()._send(msg, buffers=buffers)
        else:
            gathered.append((self.model_id, msg["state"], msg["buffer_paths"], list(buffers or ())))


def safe_name(name: str) -> str:
    """Give a file name of letters, digits, dot, dash and underscore; never a path, never hidden, never empty."""
    stem, dot, ending = name.rpartition(".")
    clean = re.sub(r"[^A-Za-z0-9_-]+", "-", stem if dot else name).strip("-")[:90].strip("-") or "rig"
    return f"{clean}.{re.sub(r'[^A-Za-z0-9]', '', ending)[:8]}" if dot else clean
