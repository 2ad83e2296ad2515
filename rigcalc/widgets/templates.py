"""HTML by templates: what a person typed is escaped by Jinja, not by whoever writes a page.

A page keeps its templates in a folder `templates` beside its code. `{% import "parts.html.j2" as parts %}` brings what all
pages share: tables, folds, buttons, lists.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

from jinja2 import ChoiceLoader, Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from rigcalc.words.spelling import spelt

_SHARED = Path(__file__).parent / "templates"


@cache
def environment(folder: Path) -> Environment:
    """Give the templates of a folder, with those that every page shares. A name that isn't given is an error, never a hole."""
    loader = ChoiceLoader([FileSystemLoader(folder), FileSystemLoader(_SHARED)])
    made = Environment(loader=loader, autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True)
    made.filters["spelt"] = spelt  # {{ "a text of our own"|spelt(units) }}
    return made


def render(module_file: str, name: str, **data: Any) -> Markup:
    """Render `name` of the folder `templates` beside a module (pass its `__file__`)."""
    template = environment(Path(module_file).parent / "templates").get_template(name)
    return Markup(template.render(**data))  # noqa: S704 (the template escaped what it was given)


@cache
def parts() -> Any:
    """Give the shared parts as functions: `parts().fold("key", "Title", inside)`."""
    return environment(_SHARED).get_template("parts.html.j2").module
