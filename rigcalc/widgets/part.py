"""What every widget of a page has in common: after a change they travel to the browser together.

A page has some twenty parts. Sent one by one, each would cost the kernel, the server and the browser a message, and the
browser would paint several half-changed pages; together they are one message and one picture of the page.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import anywidget

from rigcalc.widgets.model import AppModel


def script(*names: str) -> str:
    """Give files of `browser/` as one script, the last of which exports what the widget does."""
    return "\n".join((Path(__file__).parent / "browser" / name).read_text(encoding="utf-8") for name in names)


class Part(anywidget.AnyWidget):
    """A widget bound to an AppModel. While the model gathers, what the widget shows waits for the rest."""

    model: AppModel

    def _send(self, msg: dict[str, Any], buffers: Any = None) -> None:
        gathered = self.model.gathered
        if gathered is None or msg.get("method") != "update":
            super()._send(msg, buffers=buffers)
        else:
            gathered.append((self.model_id, msg["state"], msg["buffer_paths"], list(buffers or ())))
