"""One of several, each with a picture. Where no picture is needed, ipywidgets' own Dropdown or ToggleButtons will do."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import traitlets

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.widgets.part import Part, script


class PictureChoice(Part):
    """Radio buttons with a picture each.

    Parameters
    ----------
    options : sequence of (value, text) or (value, text, svg)
        What can be chosen: a text that stands for it in Python, the words shown, and its picture as SVG. A picture is shown
        as an image, so nothing in it can run.
    value : str
        Where it starts; the first if not given.
    description : str
        What is asked.

    Raises
    ------
    InputError
        When made: without options, or with two of one value.
    TraitError
        When set: for a value that is none of the options.

    Examples
    --------
    >>> drive = PictureChoice([("2WD", "two-wheel"), ("track", "tracks")], description="Drive")
    >>> drive.value
    '2WD'
    """

    _esm = script("wear.js", "names.js", "choice.js")
    options: traitlets.List[Any] = traitlets.List().tag(sync=True)
    value = traitlets.Unicode("").tag(sync=True)
    description = traitlets.Unicode("").tag(sync=True)

    def __init__(self, options: Sequence[Sequence[str]], value: str | None = None, description: str = "", **traits: Any):
        fit = [option for option in options if isinstance(option, list | tuple) and 2 <= len(option) <= 3]
        listed = [[*map(str, option), ""][:3] for option in fit]
        values = [option[0] for option in listed]
        if not listed or len(listed) < len(options) or len(set(values)) < len(values):
            expected = "one or more of (value, text) or (value, text, picture), each value once"
            raise InputError([Fault("options", shown(list(options)), expected, '[("2WD", "two-wheel"), ("track", "tracks")]')])
        super().__init__(options=listed, value=values[0] if value is None else value, description=description, **traits)

    @traitlets.validate("value")
    def _known(self, proposal: Any) -> str:
        values = [option[0] for option in self.options]
        if proposal.value not in values:
            raise traitlets.TraitError(f"{shown(proposal.value)} is none of the options: {', '.join(values)}")
        return str(proposal.value)
