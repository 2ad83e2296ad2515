"""Tyre sizes as people write them: what is read, and what is asked about."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rigcalc.core.errors import InputError
from rigcalc.core.tables import table
from rigcalc.models.rig.tyre_size import tyre_size

INCH = 0.0254

# size as typed: (as usually written, build, flex, width in m, rim in m, load index, speed symbol)
READ = {
    "710/70R42": ("710/70R42", "radial", "", 0.71, 42 * INCH, None, None),
    "710/70 R 42": ("710/70R42", "radial", "", 0.71, 42 * INCH, None, None),
    " 710/70r42 ": ("710/70R42", "radial", "", 0.71, 42 * INCH, None, None),
    "IF 710/60R34": ("IF 710/60R34", "radial", "IF", 0.71, 34 * INCH, None, None),
    "VF480/80R50 173D": ("VF 480/80R50", "radial", "VF", 0.48, 50 * INCH, 173, "D"),
    "VF710/70R42 CFO 185D": ("VF 710/70R42", "radial", "VF", 0.71, 42 * INCH, 185, "D"),
    "520/85R42 168A8/B": ("520/85R42", "radial", "", 0.52, 42 * INCH, 168, "A8"),
    "520/85R42 157A8/154B TL": ("520/85R42", "radial", "", 0.52, 42 * INCH, 157, "A8"),
    "520/85R38 (155A8)": ("520/85R38", "radial", "", 0.52, 38 * INCH, 155, "A8"),
    "600/55-26.5": ("600/55-26.5", "bias", "", 0.6, 26.5 * INCH, None, None),
    "18.4-38": ("18.4-38", "bias", "", 0.467, 38 * INCH, None, None),
    "18,4-38": ("18.4-38", "bias", "", 0.467, 38 * INCH, None, None),
    "18.4-38 12PR R-1": ("18.4-38", "bias", "", 0.467, 38 * INCH, None, None),
    "18.4R38 146A8": ("18.4R38", "radial", "", 0.467, 38 * INCH, 146, "A8"),
    "12.4/11-28": ("12.4-28", "bias", "", 0.315, 28 * INCH, None, None),
    "11.5/80-15.3": ("11.5/80-15.3", "bias", "", 11.5 * INCH, 15.3 * INCH, None, None),
    "30.5L-32": ("30.5L-32", "bias", "", 0.775, 32 * INCH, None, None),
    "30.5LR32": ("30.5LR32", "radial", "", 0.775, 32 * INCH, None, None),
    "66x43.00-25": ("66x43.00-25", "bias", "", 43 * INCH, 25 * INCH, None, None),
    "66×43.00R25": ("66x43.00R25", "radial", "", 43 * INCH, 25 * INCH, None, None),
    "540/65B28": ("540/65B28", "belted", "", 0.54, 28 * INCH, None, None),
}  # fmt: skip
# what comes: what is asked back ("" where nothing is near)
ASKED = {
    "710/70/42": "710/70R42", "710 70 42": "710/70R42", "710-70-42": "710/70R42", "71O/70R42": "710/70R42",
    "70/710R42": "710/70R42", "IF 710/60/34": "IF 710/60R34", "66-43-25": "66x43-25", "710/70R42 999Q": "710/70R42",
    "18.4x38": "18.4-38 (bias) or 18.4R38 (radial)", "18.4/38": "18.4-38 (bias) or 18.4R38 (radial)",
    "30.5L32": "30.5L-32 (bias) or 30.5LR32 (radial)", "18.4": "", "710/70": "", "66x43": "", "": "", "tyre": "",
    "710/70R420": "", "710/700R42": "", "7/70R42": "", "19.6-38": "", "٣10/70R42": "", "710/70R42\x00": "710/70R42",
    "9" * 100: "", "205/55ZR16": "205/55R16", "-710/70R42": "710/70R42", "710/70R42 and 600/70R30": "710/70R42",
}  # fmt: skip


@pytest.mark.parametrize("text", READ)
def test_read(text):
    size = tyre_size(text)
    name, build, flex, width, rim, index, symbol = READ[text]
    assert (size.text, size.build, size.flex, size.load_index, size.speed_symbol) == (name, build, flex, index, symbol)
    assert (size.width, size.rim) == pytest.approx((width, rim))
    assert size.diameter == pytest.approx(size.rim + 2 * size.height)
    assert size.kind == ("radial" if build == "radial" else "bias")
    assert tyre_size(size.text).text == size.text


@pytest.mark.parametrize("text", ASKED)
def test_asked_about(text):
    with pytest.raises(InputError) as refused:
        tyre_size(text)
    (fault,) = refused.value.faults
    near = ASKED[text]
    assert fault.type_this == (f"{near}, if that is what you meant" if near else
                               "the size, or section_width and diameter instead")  # fmt: skip


@pytest.mark.parametrize("value", [None, 18.4, 710, True, ["710/70R42"]])
def test_no_text(value):
    with pytest.raises(InputError):
        tyre_size(value)


def test_a_metric_size_is_what_its_figures_say():
    size = tyre_size("650/65R38")
    assert size.height == pytest.approx(0.4225)  # printed in tests/published/tyre_markings_press__section_height.toml
    assert size.known_by == "figures"
    assert tyre_size("420/70R24").known_by == tyre_size("18.4-38").known_by == "table"


def test_a_flotation_size_stands_as_high_as_its_first_figure():
    assert tyre_size("66x43.00-25").diameter == pytest.approx(66 * INCH)


@pytest.mark.parametrize("row", list(table("tyre_sections")), ids=lambda row: row["section"])
def test_every_listed_section_is_read(row):
    text = row["section"] + ("R24" if "/" in row["section"] else "-24")
    assert tyre_size(text).known_by == "table"
    assert tyre_size(text).width * 1000 == pytest.approx(row["width"])


@settings(deadline=None, max_examples=300)
@given(st.text(alphabet="0123456789/-xRrLIFV. A8BD", max_size=30))
def test_any_text_is_read_or_asked_about(text):
    try:
        size = tyre_size(text)
    except InputError:
        return
    assert 0 < size.rim < size.diameter < 6
    assert 0.05 < size.width < 1.5
