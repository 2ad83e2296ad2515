"""rigcalc as a guest in somebody's program: it takes the host's pint registry as it finds it, and hides nothing from it.

Each case runs in a process of its own, since a registry is made once a process.
"""

import subprocess
import sys
import textwrap

import pytest


def run(code):
    done = subprocess.run(
        [sys.executable, "-W", "error", "-c", textwrap.dedent(code)], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    return done.stdout.split()


USE = """
from rigcalc.equations.power import drawbar_power
def check(ureg):
    ours = drawbar_power(rigcalc.Q(10.0, "kN"), rigcalc.Q(36.0, "km/h"))
    assert ours._REGISTRY is rigcalc.Q(1.0, "in")._REGISTRY
    assert (ours + ureg.Quantity(1.0, "kW")).m_as("kW") == 101
    assert (ureg.Quantity(1.0, "kW") + rigcalc.Q(1.0, "kW")).m_as("kW") == 2
    assert drawbar_power(ureg.Quantity(10.0, "kN"), rigcalc.Q(36.0, "km/h")).m_as("kW") == 100
"""


def test_rigcalc_first_then_the_default_registry():
    run(f"import rigcalc\n{USE}\nrigcalc.Q(1.0, 'in')\nimport pint\ncheck(pint.application_registry)\ncheck(pint)")


def test_host_first_with_the_default_registry():
    run(f"import pint\npint.Quantity(1.0, 'inch')\nimport rigcalc\n{USE}\ncheck(pint.get_application_registry())\ncheck(pint)")


def test_host_sets_its_own_registry_before():
    run(f"""
import pint
mine = pint.UnitRegistry()
mine.define("load = 1200 kg")
pint.set_application_registry(mine)
import rigcalc
{USE}
check(mine)
assert pint.application_registry.get() is mine
assert rigcalc.Q(2400.0, "kg").m_as("load") == 2""")


def test_host_sets_its_own_registry_after():
    run(f"""
import rigcalc
{USE}
old = rigcalc.Q(10.0, "kN")
import pint
mine = pint.UnitRegistry()
pint.set_application_registry(mine)
check(mine)
still = drawbar_power(old, old._REGISTRY.Quantity(36.0, "km/h"))  # quantities made before keep their registry
assert (still + old._REGISTRY.Quantity(1.0, "kW")).m_as("kW") == 101""")


def test_a_registry_that_was_never_set_gives_results_of_its_own():
    run("""
import pint, rigcalc
from rigcalc.equations.power import drawbar_power
mine = pint.UnitRegistry()
for _ in range(2):
    made = drawbar_power(mine.Quantity(10.0, "kN"), mine.Quantity(36.0, "km/h"))
    assert (made + mine.Quantity(1.0, "kW")).m_as("kW") == 101
    assert drawbar_power(rigcalc.Q(1.0, "kN"), rigcalc.Q(36.0, "km/h"))._REGISTRY is not mine""")


def test_two_registries_in_one_call_are_refused_in_words():
    run("""
import pint, rigcalc
from rigcalc.equations.power import drawbar_power
mine = pint.UnitRegistry()
drawbar_power(rigcalc.Q(10.0, "kN"), rigcalc.Q(36.0, "km/h"))
for speed in (mine.Quantity(36.0, "km/h"), mine.Quantity(36.0, rigcalc.Q(1.0, "km/h")._units)):
    try:
        drawbar_power(rigcalc.Q(10.0, "kN"), speed)
    except rigcalc.InputError as error:
        assert "speed" in str(error) and "another pint registry" in str(error)
    else:
        raise AssertionError""")


def test_a_host_that_means_another_horsepower_keeps_its_meaning_and_rigcalc_its_own():
    run("""
import pint
mine = pint.UnitRegistry(on_redefinition="ignore")
mine.define("horsepower = 735.49875 * watt = hp")
pint.set_application_registry(mine)
import rigcalc
from rigcalc.core.units import factor
from rigcalc.equations.power import pull_from_power
assert abs(pull_from_power(mine.Quantity(100.0, "hp"), rigcalc.Q(3.6, "km/h")).m_as("kN") - 73.549875) < 1e-9
assert abs(factor("hp", "kW") - 0.7456998715822702) < 1e-15""")


def test_dask_is_not_hidden_and_its_results_compute():
    pytest.importorskip("dask")
    run("""
import rigcalc
rigcalc.Q(1.0, "in")
import dask.array, pint
lazy = pint.application_registry.Quantity(dask.array.ones(6, chunks=2), "kN")
assert lazy.compute().magnitude.sum() == 6
from rigcalc.equations.power import drawbar_power
made = drawbar_power(lazy, rigcalc.Q(36.0, "km/h"))
assert isinstance(made.magnitude, dask.array.Array)
assert made.compute(scheduler="synchronous").m_as("kW").tolist() == [10.0] * 6
(here,) = dask.compute(made, scheduler="synchronous")
assert here.m_as("kW").tolist() == [10.0] * 6""")


@pytest.mark.parametrize("first", ["import rigcalc", "import pint, rigcalc"])
def test_eight_threads_at_once_get_one_registry(first):
    found = run(f"""
import threading
{first}
from rigcalc.core.units import registry
gate, found = threading.Barrier(8), []
def ask():
    gate.wait()
    found.append((id(registry()), rigcalc.Q(14.0, "in").m_as("cm")))
threads = [threading.Thread(target=ask) for _ in range(8)]
[thread.start() for thread in threads]
[thread.join() for thread in threads]
print(len(set(found)), len(found))""")
    assert found == ["1", "8"]


def test_threads_that_ask_in_different_units_get_their_own_answers():
    """The equation remembers the units of the call before, which may be another thread's."""
    run("""
import sys, threading, rigcalc
from rigcalc.equations.power import drawbar_power
sys.setswitchinterval(1e-6)
wrong = []
def ask(pull, speed, wanted):
    for _ in range(4000):
        if abs(drawbar_power(pull, speed).m_as("kW") / wanted - 1) > 1e-9:
            wrong.append(wanted)
Q = rigcalc.Q
cases = [(Q(10.0, "kN"), Q(36.0, "km/h"), 100.0), (Q(1000.0, "lbf"), Q(5.0, "mph"), 4.4482216152605 * 5 * 0.44704),
         (Q(1.0, "N"), Q(1.0, "ft/min"), 0.3048 / 60 / 1000), (Q(2.0, "kN"), Q(1.0, "mph"), 2 * 0.44704)]
threads = [threading.Thread(target=ask, args=case) for case in cases]
[thread.start() for thread in threads]
[thread.join() for thread in threads]
assert not wrong, len(wrong)""")


def test_import_and_sums_leave_pint_and_its_registry_alone():
    run("""
import sys, rigcalc
rigcalc.size(rigcalc.demo_rig())
assert "pint" not in sys.modules and "dask" not in sys.modules and "sympy" not in sys.modules
import pint
before = pint.application_registry.get()
rigcalc.Q(1.0, "in")
assert pint.application_registry.get() is before""")
