"""Places: at most so many, and none that nobody looks at."""

import pytest

from rigcalc.views.serving.visits import Visits, most_visits


class Manager(set):
    """Stands for the one that starts and ends calculations."""

    def __init__(self):
        super().__init__()
        self._kernel_connections, self.ended = {}, []

    async def shutdown_kernel(self, kernel, now=False):
        self.discard(kernel)
        self.ended.append(kernel)


@pytest.fixture
def now():
    return [0.0]


@pytest.fixture
def visits(now):
    return Visits(Manager(), most=2, clock=lambda: now[0])


def begun(visits, name):
    place = visits.take()
    place.kernel = name
    visits.manager.add(name)
    visits.was_sent(place)
    return place


@pytest.fixture
def tidy_at(visits, now, awaited):
    def tidy(time):
        now[0] = time
        awaited(visits.tidy())

    return tidy


def test_no_more_than_there_are_places(visits, awaited):
    first = visits.take()
    assert first
    assert visits.take()
    assert visits.take() is None
    awaited(visits.give_up(first))
    assert visits.take()


def test_a_calculation_that_ended_frees_its_place(visits):
    begun(visits, "a")
    begun(visits, "b")
    assert visits.take() is None
    visits.manager.discard("a")
    assert visits.take()


def test_a_page_that_never_connects_is_given_20_seconds(visits, tidy_at):
    begun(visits, "a")
    tidy_at(19)
    assert visits.manager.ended == []
    tidy_at(21)
    assert visits.manager.ended == ["a"]


def test_a_page_that_is_still_being_made_is_left_alone(visits, tidy_at):
    place = visits.take()
    place.kernel = "a"
    visits.manager.add("a")
    tidy_at(500)
    assert visits.manager.ended == []


def test_a_tab_that_crashed_is_given_3_minutes(visits, tidy_at):
    begun(visits, "a")
    visits.manager._kernel_connections["a"] = 1
    tidy_at(1000)
    visits.manager._kernel_connections["a"] = 0
    tidy_at(1179)
    assert visits.manager.ended == []
    tidy_at(1181)
    assert visits.manager.ended == ["a"]
    assert "a" not in visits.manager


def test_the_default_follows_memory_and_cores():
    assert most_visits(free=22e9, cores=2) == 48  # forty at once are measured to be quick there
    assert most_visits(free=2.2e9, cores=8) == 10
    assert most_visits(free=0, cores=1) == 2
    assert most_visits() >= 2
