"""Flags by hand and logs: what is read, in which unit, and that what can't be is refused in words with every fault at once."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rigcalc.core.errors import InputError
from rigcalc.models.ground.logs import load_log, read_log
from rigcalc.models.ground.readings import profiles, read_flags

LIMIT = 2068.4
LONG = """site,depth (in),reading (psi)
a,3,100
a,6,150
a,9,320
a,12,340
a,15,180
a,18,150
b,3,100
b,6,110
b,9,120
b,12,120
b,15,130
"""


def test_flags_by_hand():
    found = read_flags(["8 in to 12 in; none", "25 cm to deeper", "100 150 320 340 180 150 psi each 3 in"]).layers(LIMIT)
    assert found.names == ("flag 4", "flag 1", "flag 2", "flag 3")  # sites with readings first
    assert found.found.tolist() == [True, True, False, True]
    assert found.top[1:].tolist() == [pytest.approx(20.32), pytest.approx(np.nan, nan_ok=True), 25.0]
    assert found.bottom[1] == pytest.approx(30.48)
    assert found.open_below.tolist() == [False, False, False, True]
    assert 6 * 2.54 < found.top[0] < 9 * 2.54
    assert 12 * 2.54 < found.bottom[0] < 15 * 2.54
    assert np.isnan(found.chance[1])


def test_a_long_log_and_a_wide_one_and_flags_say_the_same():
    long = read_log(LONG)
    wide = read_log(
        "depth (in)\ta (psi)\tb (psi)\n3\t100\t100\n6\t150\t110\n9\t320\t120\n12\t340\t120\n15\t180\t130\n18\t150\t\n"
    )
    hand = read_flags(["100 150 320 340 180 150 psi each 3 in; 100 110 120 120 130 psi each 3 in"])
    for other in (wide, hand):
        np.testing.assert_allclose(other.profiles.depth, long.profiles.depth)
        np.testing.assert_allclose(other.profiles.reading, long.profiles.reading)
    assert long.layers(LIMIT).found.tolist() == [True, False]


def test_decimal_commas_semicolons_and_any_order():
    metric = read_log("Site;Depth [cm];Cone_index [MPa]\nx;12,5;0,8\nx;2,5;0,5\nx;7,5;2,4\nx;7,5;2,6\n")
    assert metric.profiles.depth[0].tolist() == [2.5, 7.5, 12.5]
    np.testing.assert_allclose(metric.profiles.reading[0], [500, 2500, 800])  # two at one depth are averaged


def test_places_may_stand_beside():
    assert read_log("lat,lon,depth (cm),reading (kPa)\n1,2,3,4\n1,2,6,4\n1,2,9,4\n").profiles.names == ("site",)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("8 in", "two depths"),
        ("12 in to 8 in", "deeper depth last"),
        ("8 to 12", "with its unit"),
        ("8 kg to 12 kg", "with its unit"),
        ("8 in to 900 in", "0 to 200 cm"),
        ("100 200 psi each 3 in", "at least 3 values"),
        ("100 200 300 each 3 in", "two depths"),
        ("100 200 300 psi each 0 in", "above nothing"),
        ("100 200 300 kg each 3 in", "resistance with its unit"),
        ("1,5 2,5 0,5 MPa each 5 cm", "point before decimals"),
        ("100 200 300 psi each 3", "with its unit"),
        ("300 400 500 MPa each 3 in", "20000 kPa"),
        ("", "1 to 1000"),
    ],
)
def test_flags_that_can_not_be_read(text, said):
    with pytest.raises(InputError, match=said):
        read_flags([text])


def test_every_flag_that_is_wrong_is_named():
    with pytest.raises(InputError) as error:
        read_flags(["8 in; 8 in to 12 in; twelve to nine; none"])
    assert [fault.where for fault in error.value.faults] == ["flag 1", "flag 3"]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "line of headings"),
        ("depth,reading\n1,2\n", "no unit in its heading"),
        ("depth (cm),reading (kg)\n1,2\n", "converts to kPa"),
        ("deep (cm),reading (kPa)\n1,2\n", "one column named depth"),
        ("depth (cm),depth (in),reading (kPa)\n1,2,3\n", "one column named depth"),
        ("depth (cm)\n1\n2\n", "a column of readings"),
        ("depth (cm),reading (kPa)\n1,2,3\n", "decimal commas need"),
        ("depth (cm),reading (kPa)\n1,2\n2,x\n3,4\n", "line 3: reading"),
        ("depth (cm),reading (kPa)\n1,2\n2,3\n", "3 to 500 depths"),
        ("depth (cm),reading (MPa)\n1,2\n2,300\n3,2\n", "0 to 20000 kPa"),
        ("depth (cm),reading (kPa)\n1,2\n2,-3\n3,2\n", "0 to 20000 kPa"),
        ("depth (m),reading (kPa)\n1,2\n2,3\n30,2\n", "0 to 200 cm"),
        ("depth (cm),reading (kPa),colour\n1,2,red\n", "site, depth and reading"),
        ("depth (cm),reading (kPa)\n1,nan\n2,inf\n3,2\n", "a number"),
    ],
)
def test_logs_that_can_not_be_read(text, said):
    with pytest.raises(InputError, match=said):
        read_log(text)


def test_files(tmp_path):
    file = tmp_path / "log.csv"
    file.write_bytes(b"\xef\xbb\xbf" + LONG.replace("\n", "\r\n").encode())
    assert len(load_log(file).profiles) == 2
    (tmp_path / "bad.csv").write_bytes(b"\xff\xfe\x00d")
    for path, said in (
        (tmp_path / "bad.csv", "not text"),
        (tmp_path / "no.csv", "exists"),
        (tmp_path, "exists"),
        ("a\0b", "exists"),
    ):
        with pytest.raises(InputError, match=said):
            load_log(path)


def test_a_log_that_is_too_large_is_refused(tmp_path, monkeypatch):
    monkeypatch.setattr("rigcalc.models.ground.logs.LARGEST_LOG", 100)
    (tmp_path / "log.csv").write_text(LONG)
    with pytest.raises(InputError, match="MiB"):
        load_log(tmp_path / "log.csv")


def test_sites_that_do_not_go_together_are_named():
    with pytest.raises(InputError, match="don't go together"):
        profiles([("a", [1, 2, 3], [1, 2])])
    with pytest.raises(InputError, match="sites"):
        profiles([])


@settings(max_examples=400, deadline=None)
@given(st.text(max_size=120))
def test_any_text_is_flags_or_refused(text):
    try:
        read_flags([text]).layers(LIMIT)
    except InputError:
        return


_CELLS = st.one_of(st.text(max_size=8), st.floats().map(str), st.integers(-9, 300).map(str))


@settings(max_examples=400, deadline=None)
@given(
    head=st.lists(
        st.sampled_from(["site", "depth (cm)", "depth", "depth (in)", "reading (psi)", "a (kPa)", "x", "reading (kg)"]),
        min_size=1, max_size=4,
    ),
    rows=st.lists(st.lists(_CELLS, min_size=1, max_size=4), max_size=8),
    mark=st.sampled_from([",", ";", "\t"]),
)  # fmt: skip
def test_any_table_is_a_log_or_refused(head, rows, mark):
    text = "\n".join([mark.join(head), *(mark.join(row) for row in rows)])
    try:
        found = read_log(text).layers(LIMIT)
        assert (found.top[found.found] >= 0).all()
    except InputError:
        return


@pytest.mark.parametrize("text", [" psi each 3 in", "100 psi each 3 in", "100 200 300 psi each 0 in", "1 2 3 psi each 90 cm"])
def test_values_at_steps_that_are_none_or_too_few_or_too_deep_are_refused(text):
    with pytest.raises(InputError, match="flag 1"):
        read_flags([text])


def test_three_numbers_are_in_hardest_out_and_the_most_it_showed():
    layers = read_flags(["8 10 12 in; 20 25 30 cm; 8 in to 12 in, 350 psi; none, 150 psi"], 2068.0).layers(2068.0)
    assert layers.top[:3] == pytest.approx([20.32, 20, 20.32])
    assert layers.hardest[:3] == pytest.approx([25.4, 25, 25.4])
    assert layers.bottom[:3] == pytest.approx([30.48, 30, 30.48])
    assert np.isnan(layers.peak[:2]).all()
    assert layers.peak[2] == pytest.approx(2413.17, rel=1e-5)
    assert layers.found.tolist() == [True, True, True, False]


@pytest.mark.parametrize("text", ["12 10 8 in", "8 13 12 in", "8 8 8 in", "8 10 12 psi", "8 in to 12 in, 250 psi", "8 10 12"])
def test_three_numbers_that_do_not_go_together_are_refused(text):
    with pytest.raises(InputError, match="flag 1"):
        read_flags([text], 2068.0)
