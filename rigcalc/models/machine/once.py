"""A step that is worked out when first asked for, and kept."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any


class once:
    """Decorator for a method without arguments: its value is worked out at first use and kept in the instance.

    Unlike `functools.cached_property` of Python 3.11 it takes no lock: that one lock would be shared by all instances, and
    threads at work on different blocks would wait for each other at every step.
    """

    def __init__(self, step: Callable[[Any], Any]):
        self._step, self._name = step, step.__name__
        self.__doc__ = step.__doc__

    def __get__(self, instance: Any, owner: type | None = None) -> Any:
        """Work the value out; from then on the instance's own attribute is found first."""
        if instance is None:
            return self
        value = instance.__dict__[self._name] = self._step(instance)
        return value
