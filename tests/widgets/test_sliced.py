"""A file in slices: whole with its last one, refused where it is too big, out of order, or no file."""

import pytest
from file_slices import slices

from rigcalc.core.errors import InputError
from rigcalc.widgets.sliced import SLICE, Gatherer


def gatherer():
    return Gatherer("the file", 3 * SLICE, "a table")


@pytest.mark.parametrize("length", [0, 1, SLICE, SLICE + 1, 3 * SLICE])
def test_the_last_slice_brings_the_file(length):
    data, here = bytes(range(250)) * (length // 250 + 1), gatherer()
    data = data[:length]
    *first, last = slices(data)
    for count, each in enumerate(first, 1):
        assert here.take(each) is None
        assert here.share == pytest.approx(count / (len(first) + 1))
    picked = here.take(last)
    assert (picked.name, picked.data) == ("a.csv", data)
    assert here.share is None
    assert here.take(slices(b"next", "b.csv")[0]).data == b"next"


def test_a_file_that_is_too_big_is_refused_by_its_size_alone():
    with pytest.raises(InputError, match=r"4\.\d MiB named 'big.csv'.*at most 3 MiB"):
        gatherer().take({"name": "big.csv", "size": int(4.2 * 1024**2), "at": 0, "part": 0, "parts": 0})


def test_what_is_no_slice_or_out_of_order_is_refused_and_forgotten():
    first, second, third = slices(bytes(3 * SLICE))
    for odd in (None, "text", {}, {**first, "size": "9"}, {**first, "parts": True}, {**first, "bytes": "text"}, second,
                {**first, "parts": 0}, {**first, "bytes": bytes(SLICE + 1)}, {**first, "part": -1}):  # fmt: skip
        here = gatherer()
        with pytest.raises(InputError, match="the file"):
            here.take(odd)
        assert here.share is None
    for wrong in (third, {**second, "name": "b.csv"}, {**second, "size": 7}):
        here = gatherer()
        here.take(first)
        with pytest.raises(InputError, match="broke off"):
            here.take(wrong)
        assert here.share is None
    here = gatherer()
    with pytest.raises(InputError, match="broke off"):
        here.take(slices(b"12345", size=6)[0])
