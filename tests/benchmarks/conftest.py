"""A ratio is taken anew, twice at most, before it counts as missed: another program may have the machine for a while."""

from __future__ import annotations

import pathlib

import pytest

HERE = pathlib.Path(__file__).parent


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Give what stands in this folder two more tries."""
    for item in items:
        if HERE in item.path.parents:
            item.add_marker(pytest.mark.flaky(reruns=2, reruns_delay=5))
