"""Several pages at one address: one is in sight, and what they are about goes along from page to page.

Each page has a model of its own, made when it is first opened. A page that is left keeps what is its own; what all share
is carried to the next one. The row of pages and the part that speaks for the address follow whichever is in sight.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, NamedTuple
from urllib.parse import parse_qsl, urlencode

import ipywidgets

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.widgets.app import App
from rigcalc.widgets.early import with_first_words
from rigcalc.widgets.model import AppModel
from rigcalc.widgets.one_layout import one_layout
from rigcalc.widgets.page import Page
from rigcalc.widgets.panel import Panel
from rigcalc.widgets.templates import render


class Kind(NamedTuple):
    """A page that can be opened: its short name in the row, and what makes it."""

    label: str
    make: Callable[[], App]  # with `inside=True`


class Pages(ipywidgets.VBox):  # type: ignore[misc]  # it comes without types
    """A row of pages and the one that is in sight. `kinds` maps a name, as it stands in links, to a page."""

    children: tuple[ipywidgets.Widget, ...]

    def __init__(self, kinds: Mapping[str, Kind], first: str = ""):
        self.kinds = dict(kinds)
        self.now = first or next(iter(self.kinds))
        self.made: dict[str, App] = {}
        app = self._app(self.now)
        acts = {"page": lambda name: self.turn_to(str(name))}
        self.row = Panel(app.model, self._row, "the pages", acts, look="rig-pages", role="navigation", label="Pages")
        self.page = Page(app.model, self._query, self.start)
        # A page is added at the end: views before it stay, and the address is asked for its entries once.
        super().__init__([self.page, self.row, app], layout=one_layout())
        self.add_class("rig-look")
        self.add_class("rig-book")

    @property
    def app(self) -> App:
        """The page in sight."""
        return self.made[self.now]

    def carry(self, old: AppModel, new: AppModel) -> None:
        """Take what the pages share from the model of the one that is left to that of the next. Raises InputError."""
        raise NotImplementedError

    def turn_to(self, name: str) -> None:
        """Show a page, with what the last one was about. Raises InputError for a name that is none."""
        if name not in self.kinds:
            raise InputError([Fault("page", shown(name), "a page of this address", ", ".join(self.kinds))])
        if name == self.now:
            return
        old, app = self.app, self._app(name)
        self.carry(old.model, app.model)
        app.model.send_gathered = old.model.send_gathered
        old.add_class("rig-away")
        app.remove_class("rig-away")
        if app not in self.children:
            self.children = (*self.children, app)
        self.now = name
        self.row.follow(app.model)
        self.page.follow(app.model)

    def start(self, query: str) -> None:
        """Take the query that the address was opened with. Raises InputError."""
        pairs = parse_qsl(query.removeprefix("?"), keep_blank_values=True)
        wanted = dict(pairs).get("page")
        if wanted is not None:
            self.turn_to(wanted)
        self.app.model.start_from_query(urlencode([pair for pair in pairs if pair[0] != "page"]))

    def _repr_mimebundle_(self, **asked: Any) -> dict[str, Any]:
        return with_first_words(super()._repr_mimebundle_(**asked), self.app.head, self.row)

    def _app(self, name: str) -> App:
        if name not in self.made:
            self.made[name] = self.kinds[name].make()
            self.made[name].go_to = self.turn_to
        return self.made[name]

    def _query(self) -> str:
        mine = {} if self.now == next(iter(self.kinds)) else {"page": self.now}
        return "&".join(filter(None, [urlencode(mine), self.app.model.to_query()]))

    def _row(self) -> str:
        labels = [(name, kind.label, name == self.now) for name, kind in self.kinds.items()]
        return str(render(__file__, "pages.html.j2", pages=labels))
