"""Links and messages that nobody of good will sends: each ends in words that name the entry, never in an error of the program.

`RIGCALC_HOSTILE=10000 uv run pytest tests/hostile` tries that many of each kind; the ordinary run a few.
"""

import json
import math
import os
import random
import re
import time
from html import unescape
from urllib.parse import urlencode

import pytest

pytest.importorskip("anywidget", reason="missing: anywidget")
from rigcalc.models import demo_rig
from rigcalc.views import BallastApp, CompareApp, SizeApp
from rigcalc.views.ballast.model import BallastModel
from rigcalc.views.compare.model import CompareModel
from rigcalc.views.size.model import SizeModel

MANY = int(os.environ.get("RIGCALC_HOSTILE", "0"))
MODELS = {"size": (SizeModel, MANY or 150), "ballast": (BallastModel, MANY or 25), "compare": (CompareModel, MANY or 60)}
LONGEST = 5.0  # seconds for one of them
TEXTS = [
    *("", " ", "0", "-1", "4", "13", "12 in", "nan", "inf in", "-inf mph", "1e999 lb", "1e300 hp", "1e-300 in", "5e-324 mph"),
    *("0,250 kN", "१३", "1_3", "true", "false", "none", "track", "tyres", "null", "[]", "[[[[", "{}", '["a"]', '[{"on": 4}]'),
    *("[1, 2", "\x00", "\x1b[31m", "<script>alert(1)</script>", "\udcff", "🚜" * 50, "x" * 1999, "x" * 2001, "9" * 400),
    *("12 in" * 100, "silty clay loam", "__class__", "${7*7}", "{{7*7}}", "../../etc/passwd", "two_track", "articulated"),
    *("%", "&", "=", "?", "#"),
]
NAMED = [
    *("ballast.0.on=4", "farm.x=1", "tractor=1e300+hp", "power=1e300+hp", "depth=5e-324+in", "tractor.rear.tyre=5"),
    *("work.depth.value=3", "ballast=x", "ballast.x.y=1", "gears.speeds.0=1", "tractor..name=1", ".=1", "implement.tools.x="),
    *("rig=nobody", "units=parsec", "setup=1", "scale=[]"),
]


def no_error_of_the_program(model):
    for fault in model.faults:
        assert "inside the program" not in fault.got, fault
        assert fault.where, fault


def shown_by(app):
    out = []
    for widget in [app, *app.children]:
        out += [getattr(widget, "html", "")]
        out += [each for child in getattr(widget, "children", ()) for each in shown_by_one(child)]
    return " ".join(out)


def shown_by_one(widget):
    return [getattr(widget, "html", ""), *(each for child in getattr(widget, "children", ()) for each in shown_by_one(child))]


def no_number_that_is_none(text):
    visible = unescape(re.sub(r"<[^>]*>", " ", text))
    for quoted in ("'nan'", "'inf", "'-inf"):  # what came, as a fault says it
        visible = visible.replace(quoted, "")
    assert not re.search(r"(?<![\w'])(nan|inf|-inf)(?![\w'])", visible), visible[:500]


@pytest.mark.parametrize("kind", MODELS)
@pytest.mark.parametrize("query", NAMED)
def test_a_broken_link_names_the_entry(kind, query):
    model = MODELS[kind][0]()
    model.guarded(model.start_from_query, "link")(query)
    no_error_of_the_program(model)
    name = query.split("=")[0]
    # On the ballast page a weight without its name and mass is asked for these; a list of weights that is none is left out.
    if (kind, name) not in (("ballast", "ballast"), ("ballast", "ballast.0.on")):
        assert model.faults, query
        assert any(name.split(".")[0] in f"{fault.where} {fault.got}" for fault in model.faults), model.faults


def spoiled(path, random_):
    ways = [f"{path}.x", path.rpartition(".")[0], path.replace(".", "..", 1), path.upper(), random_.choice(TEXTS)]
    return random_.choice(ways)


def queries(kind, random_):
    more = ["ballast.0.on", "ballast.1.mass", "table.rear", "slip.loaded", "plan.job"]
    more += [f"{place}.{path}" for place in (0, 1, 5) for path in ("work.depth", "tractor.rear.kind", "name", "rig", "ballast")]
    paths = [*MODELS[kind][0].defaults, *MODELS[kind][0].short_names, *more]
    for _ in range(MODELS[kind][1]):
        chosen = random_.choices(paths, k=random_.randint(1, 6))
        pairs = [(spoiled(path, random_) if random_.random() < 0.3 else path, random_.choice(TEXTS)) for path in chosen]
        yield urlencode(pairs, errors="replace")


@pytest.mark.parametrize("kind", MODELS)
def test_links_at_random(kind):
    model = MODELS[kind][0]()
    for query in queries(kind, random.Random(10)):
        start = time.monotonic()
        model.guarded(model.start_from_query, "link")(query)
        no_error_of_the_program(model)
        assert time.monotonic() - start < LONGEST, query
        model.guarded(model.to_query, "link")()
        no_error_of_the_program(model)


def test_a_link_of_very_many_entries():
    model = SizeModel()
    for query in ("&".join(f"a{n}=1" for n in range(501)), "&" * 15_000, "x" * 30_000):
        model.guarded(model.start_from_query, "link")(query)
        no_error_of_the_program(model)
        assert any(fault.where == "link" for fault in model.faults)


# messages of widgets, as a page that isn't ours would send them

VALUES = [
    *(
        None,
        True,
        0,
        -1,
        1e308,
        math.nan,
        [],
        {},
        "",
        "x" * 5000,
        [[]],
        "imperial",
        "two_track",
        7.5,
        {"a": {"b": []}},
        "\udcff",
        "0",
    ),
    *(
        {"name": 5, "size": "big", "text": 7},
        {"size": 10, "text": "[["},
        {"size": -1, "text": "farm = 1"},
        {"size": 1, "text": None},
    ),
]


def widgets_of(app):
    out = [app.page]
    todo = [app]
    while todo:
        widget = todo.pop()
        todo += getattr(widget, "children", ())
        if hasattr(widget, "_heard"):
            out.append(widget)
    return out


@pytest.mark.parametrize(("make", "kind"), [(SizeApp, "size"), (BallastApp, "ballast"), (CompareApp, "compare")])
def test_messages_at_random(make, kind, monkeypatch):
    monkeypatch.setattr("ipywidgets.Widget.send", lambda self, content, buffers=None: json.dumps(content))
    random_ = random.Random(20)
    app = make()
    parts = widgets_of(app)
    for _ in range(MODELS[kind][1]):
        widget = random_.choice(parts)
        acts = [*getattr(widget, "acts", {}), "nothing"]
        paths = [*getattr(widget, "fields", {}), "nothing", "tractor", "farm.x"]
        edit = {"path": random_.choice(paths), "text": random_.choice([*TEXTS, *VALUES]), "live": random_.choice(VALUES)}
        message = random_.choice([
            {"kind": "act", "name": random_.choice(acts), "value": random_.choice(VALUES)}, {"kind": "edit", **edit},
            {"kind": "start", "query": random_.choice([*NAMED, *TEXTS, *VALUES])},
            {"kind": random_.choice(VALUES)}, random_.choice(VALUES),
        ])  # fmt: skip
        start = time.monotonic()
        widget._heard(widget, message, None)
        no_error_of_the_program(app.model)
        if kind != "compare" or not re.search(
            "nan|inf", " ".join(map(str, app.model.inputs.values()))
        ):  # names of rigs are shown
            no_number_that_is_none(shown_by(app))
        assert time.monotonic() - start < LONGEST, message
    if kind == "compare":
        app.model.start_from([demo_rig("two_track"), demo_rig("articulated")], ["one", "other"])
    else:
        app.model.start_from_demo("two_track")
    assert app.model.results is not None
    assert app.model.faults == ()


def test_old_faults_go_when_a_new_file_is_opened():
    app = SizeApp()
    app.bar.act("load", {"name": "a.toml", "size": 9, "text": "nonsense1"})
    first = app.model.faults
    assert first
    app.bar.act("load", {"name": "b.toml", "size": 9_000_000, "text": ""})
    assert app.model.faults
    assert not set(first) & set(app.model.faults)
    app.bar.act("load", {"name": "c.toml", "size": 9, "text": app.model.to_toml()})
    assert app.model.faults == ()
