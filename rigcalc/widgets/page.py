"""The page around an app: the address that keeps the entries, the question whether the calculation lives, downloads."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import traitlets

from rigcalc.widgets.model import AppModel
from rigcalc.widgets.page_look import look
from rigcalc.widgets.part import Part, script


class Page(Part):
    """Invisible. The browser asks it for a sign of life, tells it the link it was opened with, takes files from it.

    `query_of` gives the query of the page's address and `start` takes the one it was opened with; without them both are the
    model's own.
    """

    _esm = script("save.js", "page.js")
    _css = look()
    model: AppModel
    query = traitlets.Unicode("").tag(sync=True)
    title = traitlets.Unicode("").tag(sync=True)
    revision = traitlets.Int(0).tag(sync=True)

    def __init__(self, model: AppModel, query_of: Callable[[], str] | None = None, start: Callable[[str], None] | None = None):
        self.model = model
        self._query_of, self._start = query_of, start
        super().__init__()
        self.on_msg(self._heard)
        self.watch(self.refresh, "the page's address")

    def refresh(self) -> None:
        """Put the state into the address, and its name into the title."""
        query = self._query_of() if self._query_of else self.model.to_query()
        with self.hold_sync():
            self.query, self.title, self.revision = query, self.model.named(), self.model.revision

    def send_together(self, updates: list[Any]) -> None:
        """Send many parts' updates, each (name of its model, state, places of its buffers, buffers), as one message."""
        content = [[name, state, paths] for name, state, paths, _ in updates]
        buffers = [buffer for *_, each in updates for buffer in each]
        self.send({"kind": "together", "updates": content}, buffers=buffers)

    def _heard(self, _widget: object, message: Mapping[str, Any], _buffers: object) -> None:
        if not isinstance(message, Mapping):
            return
        # Only a page that has spoken can take what it is sent for the others; until then each part is sent its own.
        self.model.send_gathered = self.send_together
        if message.get("kind") == "ping":
            self.send({"kind": "pong"})
        elif message.get("kind") == "start":
            self.model.guarded(self._start or self.model.start_from_query, "link")(str(message.get("query", "")))
