"""What a program that depends on rigcalc finds: names, types that mypy follows, help, and docstrings with units and errors."""

import inspect
import os
import pydoc
import re
import subprocess
import sys
from pathlib import Path

import pytest

import rigcalc
from rigcalc.core.errors import InputError

STUB = Path(rigcalc.__file__).with_suffix(".pyi").read_text(encoding="utf-8")
NAMES = sorted(set(re.findall(r"import \w+ as (\w+)", STUB)))
FUNCTIONS = [
    name for name in NAMES if inspect.isfunction(getattr(rigcalc, name)) or hasattr(getattr(rigcalc, name), "cache_info")
]


def test_the_stub_and_the_package_have_the_same_names():
    assert sorted(rigcalc.__all__) == NAMES
    assert set(NAMES) <= set(dir(rigcalc))
    for name in NAMES:
        assert getattr(rigcalc, name).__module__.startswith("rigcalc")
    assert {"Q", "find", "load_all", "table", "working", "load_rig", "read_rig", "rig_text", "demo_rig", "operating_point",
            "size", "ballast", "compare", "shortlist", "ground", "season", "field", "solve_for",
            "InputError", "OutsideRange", "Rig"} <= set(NAMES)  # fmt: skip
    with pytest.raises(AttributeError, match="nope"):
        rigcalc.nope  # noqa: B018
    assert (Path(rigcalc.__file__).parent / "py.typed").is_file()


def test_help_says_what_there_is():
    shown = pydoc.render_doc(rigcalc, renderer=pydoc.plaintext)
    for name in NAMES:
        assert re.search(rf"\b{name}\b", rigcalc.__doc__ + shown)
    assert "load_rig(" in rigcalc.__doc__


@pytest.mark.parametrize("name", FUNCTIONS)
def test_docstrings_are_numpydoc(name):
    function = getattr(rigcalc, name)
    text = inspect.getdoc(function)
    sections = re.findall(r"^(\w+)\n-+$", text, re.MULTILINE)
    parameters = list(inspect.signature(function).parameters)
    order = [section for section in ("Parameters", "Returns", "Raises", "Examples") if section in sections]
    assert [section for section in sections if section in order] == order
    assert "Returns" in sections
    assert "Examples" in sections
    if parameters:
        assert "Parameters" in sections
        told = text.split("Parameters\n---", 1)[1].split("\n\n", 1)[0]
        for parameter in parameters:
            assert re.search(rf"^(\w+, )*{parameter}(, \w+)* : ", told, re.MULTILINE), parameter
        assert "Raises" in sections
        assert "InputError" in text.split("Raises\n---", 1)[1]
    assert ">>>" in text


@pytest.mark.parametrize("name", ["Equation", "InputError"])
def test_docstrings_of_classes_name_attributes_that_are_there(name):
    text = inspect.getdoc(getattr(rigcalc, name))
    told = text.split("Attributes\n---", 1)[1].split("\n\n", 1)[0]
    names = [each for line in re.findall(r"^(\w+(?:, \w+)*) : ", told, re.MULTILINE) for each in line.split(", ")]
    made = rigcalc.find("slip")[0] if name == "Equation" else InputError([])
    assert names
    assert all(hasattr(made, each) for each in names)
    assert ">>>" in text


@pytest.mark.parametrize("name", sorted(rigcalc.load_all()))
def test_every_equation_says_units_and_source(name):
    eq = rigcalc.load_all()[name]
    assert all(f"{symbol.name}" in eq.__doc__ for symbol in (eq.gives, *eq.takes))
    assert all(symbol.unit in eq.__doc__ for symbol in (eq.gives, *eq.takes) if symbol.unit not in ("1", "text"))
    assert str(eq.source) in eq.__doc__


USER = """
import rigcalc
from rigcalc import InputError, Q, Rig, solve_for

rig: Rig = rigcalc.load_rig("two_track")
reveal_type(rigcalc.size)
answer = rigcalc.size(rig, seed=1)
works: bool = answer.works
reveal_type(answer.rig)
reveal_type(rigcalc.operating_point(rig, depth=Q(12, "in")))
reveal_type(rigcalc.find("slip"))
reveal_type(rigcalc.table("d497_draft").units)
reveal_type(solve_for("drawbar_power", "speed").text)
reveal_type(rigcalc.ballast)
text: str = rigcalc.rig_text(rig)
try:
    rigcalc.size(rig, seed="one")
    rigcalc.rig_text("no rig")
    rigcalc.nope
except InputError as error:
    reveal_type(error.faults)
"""


@pytest.mark.slow
def test_mypy_of_a_user_follows_the_package(tmp_path):
    user = tmp_path / "user.py"
    user.write_text(USER, encoding="utf-8")
    command = [sys.executable, "-m", "mypy", "--strict", "--config-file", os.devnull, "--cache-dir", str(tmp_path / "cache"),
               "--follow-imports", "silent", str(user)]  # fmt: skip
    done = subprocess.run(command, capture_output=True, text=True, check=False, cwd=tmp_path,
                          env={**os.environ, "MYPYPATH": str(Path(rigcalc.__file__).parents[1])})  # fmt: skip
    notes = re.findall(r'Revealed type is "(.*)"', done.stdout)
    wanted = ["def (rig: ", "rigcalc.models.rig.rig.Rig", "OperatingPoint",
              "[rigcalc.core.equation.Equation]", "dict[", "str",
              "-> rigcalc.models.ballast", "tuple[rigcalc.core.errors.Fault"]  # fmt: skip
    assert len(notes) == len(wanted), done.stdout + done.stderr
    for note, part in zip(notes, wanted, strict=True):
        assert part in note.replace("builtins.", "")
        assert "Any" not in note or "def (" in note or "Operating" in note
    errors = [line for line in done.stdout.splitlines() if ": error: " in line]
    assert len(errors) == 3, done.stdout
    assert "seed" in errors[0]
    assert "rig_text" in errors[1]
    assert "nope" in errors[2]


def test_refusals_are_of_one_kind():
    assert issubclass(InputError, ValueError)
    assert issubclass(rigcalc.OutsideRange, UserWarning)
