"""A file picked in the browser: whole with its last piece, refused where it is too big, breaks off, or is no file."""

import pytest

from rigcalc.core.errors import InputError
from rigcalc.widgets.picked import PIECE, Fetching


@pytest.fixture
def asked():
    return []


@pytest.fixture
def fetching(asked):
    return Fetching("the file", 3 * PIECE, "a table", lambda start, end: asked.append((start, end)))


@pytest.mark.parametrize("length", [1, PIECE - 1, PIECE, PIECE + 1, 3 * PIECE])
def test_the_last_piece_brings_the_file(length, fetching, asked):
    data = (bytes(range(250)) * (length // 250 + 1))[:length]
    assert fetching.begin({"name": "a.csv", "size": length}) is None
    picked = None
    while asked:
        assert picked is None
        start, end = asked.pop(0)
        assert fetching.share == pytest.approx(start / length)
        picked = fetching.take(start, data[start:end])
    assert (picked.name, picked.data, fetching.share) == ("a.csv", data, None)
    assert fetching.take(0, b"late") is None, "nothing was asked for"


def test_an_empty_file_is_here_at_once(fetching, asked):
    assert fetching.begin({"name": "a.csv", "size": 0}).data == b""
    assert asked == []


def test_a_file_that_is_too_big_is_refused_by_its_size_alone(fetching, asked):
    with pytest.raises(InputError, match=r"4\.\d MiB named 'big.csv'.*at most 3 MiB"):
        fetching.begin({"name": "big.csv", "size": int(4.2 * 1024**2)})
    assert (asked, fetching.share) == ([], None)


@pytest.mark.parametrize("odd", [None, "text", {}, {"name": "a", "size": "9"}, {"name": "a", "size": True},
                                 {"name": 3, "size": 9}, {"name": "a", "size": -1}])  # fmt: skip
def test_what_is_no_file_is_refused(odd, fetching):
    with pytest.raises(InputError, match="the file"):
        fetching.begin(odd)


@pytest.mark.parametrize("data", [None, b"", b"1234", b"123456"])
def test_a_file_that_breaks_off_is_refused_and_forgotten(data, fetching):
    fetching.begin({"name": "a.csv", "size": 5})
    with pytest.raises(InputError, match="broke off or changed"):
        fetching.take(0, data)
    assert fetching.share is None
    assert fetching.take(0, b"12345") is None


def test_pieces_of_another_file_or_twice_are_left_alone(fetching, asked):
    fetching.begin({"name": "a.csv", "size": PIECE + 2})
    assert fetching.take(7, b"x") is None
    fetching.take(0, bytes(PIECE))
    assert fetching.take(0, bytes(PIECE)) is None
    assert asked == [(0, PIECE), (PIECE, PIECE + 2)]
    assert len(fetching.take(PIECE, b"yz").data) == PIECE + 2
