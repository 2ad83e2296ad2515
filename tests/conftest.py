"""Shared by all tests: on CI a skip for a missing browser or tool is a failure, and hypothesis is repeatable."""

from __future__ import annotations

import os
from collections.abc import Generator
from typing import Any

import pytest
from hypothesis import settings

settings.register_profile("ci", derandomize=True, deadline=None, print_blob=True)
settings.register_profile("here", deadline=None)
settings.load_profile("ci" if os.environ.get("CI") else "here")

# Reasons that begin so mean that the machine lacks something that .ci/run has to install.
MISSING = "missing:"


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item: pytest.Item) -> Generator[None, Any, Any]:
    """Turn a skip for something missing into a failure on CI."""
    report = yield
    if os.environ.get("CI") and report.skipped and MISSING in str(report.longrepr):
        report.outcome = "failed"
        report.longrepr = f"skipped on CI: {report.longrepr}"
    return report
