"""Keller's contact: an independent working of the same regressions on a grid of 1 cm, loads that close and loads that don't."""

import numpy as np
import pytest

import rigcalc
from rigcalc.core.errors import InputError
from rigcalc.models.ground.axles import typed_axles
from rigcalc.models.ground.contact import contact
from rigcalc.models.rig.file import load_rig, replaced

LOAD = 39.24  # kN: 4000 kg
DEPTHS = np.array([5, 10, 30, 50, 70, 100.0])
# stress at these depths by that working, which carried 39.5 kN, with a concentration factor of 5
WORKED = np.array([274.8, 261.8, 153.6, 85.1, 51.4, 28.0]) * LOAD / 39.5


def asked(width, diameter, pressure, recommended, beside=(), factors=(4.0, 5.0)):
    return contact(LOAD, width, diameter, pressure, recommended, beside, DEPTHS, factors)


def test_stress_under_a_tyre_meets_an_independent_working():
    found = asked(0.4, 1.8, 200, 200)
    assert (found.peak, found.length) == (pytest.approx(288.7, abs=0.1), pytest.approx(0.826, abs=1e-3))
    assert found.holds
    assert found.closed == pytest.approx(LOAD)
    assert found.high == pytest.approx(WORKED, rel=0.02)
    assert (found.low < found.high).all()


@pytest.mark.parametrize(("pressure", "recommended", "closed"), [(160, 160, 55), (160, 80, 43.7), (80, 80, 39.3)])
def test_loads_that_do_not_close_are_refused(pressure, recommended, closed):
    """A tyre 650 mm wide, by the same working: two of three carry far more than the wheel bears."""
    found = asked(0.65, 1.95, pressure, recommended)
    assert found.closed == pytest.approx(closed, rel=0.01)
    assert found.holds == (abs(closed / LOAD - 1) < 0.05)
    assert (found.at(30.0) is None) == (not found.holds)


def test_far_down_it_is_a_point_load_and_neighbours_add():
    found = asked(0.4, 1.8, 200, 200, factors=(3.0, 3.0))
    (far,) = contact(LOAD, 0.4, 1.8, 200, 200, (), np.array([400.0]), (3.0, 3.0)).high
    assert far == pytest.approx(3 * LOAD / (2 * np.pi * 4.0**2), rel=0.01), "Boussinesq"
    (both,) = contact(LOAD, 0.4, 1.8, 200, 200, (0.44,), np.array([400.0]), (3.0, 3.0)).high
    assert both == pytest.approx(2 * far, rel=0.01)
    twin = asked(0.4, 1.8, 200, 200, beside=(0.44,), factors=(3.0, 3.0))
    assert twin.high[0] == pytest.approx(found.high[0], rel=0.02)


def test_the_load_of_a_narrow_tyre_whose_middle_presses_most_is_closed_by_hand():
    """0.2 m wide, the shape across rises all the way from the edge to the middle. 9 percent off is too much."""
    found = contact(10.0, 0.2, 1.4, 200, 200, (), DEPTHS, (4.0, 4.0))
    across = (np.arange(10_000) + 0.5) / 1e5  # m from the middle of the tyre
    shape = (0.1 - across) * np.exp(-(9.3 - 7.3 * 0.2) * (0.1 - across))
    square = 2.1 * (0.2 * 1.4) ** 2 + 2
    reach = (0.47 + 0.11 * 1.4**2) / 2 * (1 - (across / 0.1) ** square) ** (1 / square)
    # at the exponent of 1 along the tyre, the least, stress is half of its greatest in the mean
    assert found.closed == pytest.approx(0.2 * found.peak * np.mean(shape / shape.max() * reach), rel=5e-3)
    assert found.off == pytest.approx(0.089, abs=1e-3)
    assert (found.holds, found.at(30.0)) == (False, None)


def test_a_tyre_too_wide_for_the_model_has_none():
    assert asked(1.3, 2.0, 100, 100) is None
    answer = rigcalc.ground("articulated", axles=["cart: 9 t on 2 tyres of 1.3 m by 2 m at 100 kPa"])
    assert "Cart: a contact model by pressure isn't for so wide a tyre" in rigcalc.in_words(answer).pressing


def test_the_cart_s_pressure_is_typed_and_said_or_refused():
    cart, bare = "cart: 8000 kg on 2 tyres of 0.4 m by 1.8 m at 200 kPa", "cart: 8000 kg on 2 tyres of 0.4 m by 1.8 m"
    rig = replaced(load_rig("articulated"), {"tractor.front.tyre.inflation": None, "tractor.rear.tyre.inflation": None})
    found = rigcalc.ground(rig, axles=[cart, bare]).pressing
    front, rear, with_air, without = found.axles
    assert (front.contact, rear.contact, without.contact) == (None, None, None)
    assert with_air.contact.holds
    assert with_air.contact.load == pytest.approx(4000 * 9.80665 / 1000)
    assert (with_air.sure, with_air.maybe) == (without.sure, without.maybe), "it decides nothing"
    lines = " ".join(rigcalc.in_words(rigcalc.ground(rig, axles=[cart]), "si").pressing)
    assert "Cart: by the tyres' pressure (200 kPa) at most 289 kPa in the contact" in lines
    wide = "cart: 8000 kg on 2 tyres of 0.65 m by 1.95 m at 160 kPa"
    lines = " ".join(rigcalc.in_words(rigcalc.ground(rig, axles=[wide]), "si").pressing)
    assert "is refused: its contact would carry 55.3 kN where the wheel bears 39.2 kN, 41 % off" in lines
    (soft,) = typed_axles(["cart: 8000 kg on 2 tires of 42 in by 78 in at 35 psi"])
    assert soft.inflation == pytest.approx(241.3, abs=0.1)


@pytest.mark.parametrize(("depth", "beyond"), [("12 cm", True), ("35 cm", False)])
def test_it_is_said_where_the_two_opinions_part(depth, beyond):
    """By area a cart of 8 t presses at most 216 kPa at 12 cm; the model has 240 at least there, and lies within at 35 cm."""
    answer = rigcalc.ground(
        replaced(load_rig("articulated"), {"work.depth": depth}), axles=["cart: 8 t on 2 tyres of 0.4 m by 1.8 m at 200 kPa"]
    )
    (said,) = [line for line in rigcalc.in_words(answer, "si").pressing if line.startswith("Cart: by the tyres'")]
    assert ("beyond the " in said) is beyond


def test_the_rigs_own_pressure_and_its_data_books():
    tyre = {
        "inflation": "14 psi",
        "pressures": ["10 psi", "20 psi"],
        "loads": ["2000 kg", "4000 kg"],
        "table_from": "a data book",
    }
    gone = {"tractor.front.tyre.pressures": None, "tractor.front.tyre.loads": None, "tractor.front.tyre.table_from": ""}
    rig = replaced(load_rig("articulated"), gone | {f"tractor.rear.tyre.{name}": each for name, each in tyre.items()})
    front, rear = rigcalc.ground(rig).pressing.axles
    each = rear.axle.mass / rear.axle.count
    assert rear.axle.inflation == pytest.approx(96.5, abs=0.1)
    assert rear.axle.recommended == pytest.approx(6.894757 * (10 + 10 * (each - 2000) / 2000), rel=1e-4)
    assert front.axle.recommended is None
    light = replaced(rig, {"tractor.rear.tyre.loads": ["1000 kg", "1500 kg"]})
    assert rigcalc.ground(light).pressing.axles[1].axle.recommended is None, "the table ends below the load"
    assert rear.contact.recommended == rear.axle.recommended


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("cart: 18 t on 2 tyres of 42 in by 78 in at 35", "pressure"),
        ("cart: 18 t on 2 tyres of 42 in by 78 in at 3500 psi", "pressure"),
        ("cart: 18 t on 2 tracks of 36 in by 2 m at 35 psi", "a track has no air in it"),
    ],
)
def test_pressures_that_are_none(text, said):
    with pytest.raises(InputError, match=said):
        typed_axles([text])
