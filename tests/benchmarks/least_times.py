"""How long sides take beside each other in one run: a slow machine slows all of them, so that only their ratios are judged."""

import math
import time


def least_times(sides, enough, turns=5, limit=25, clock=time.perf_counter):
    """Least seconds of each side, taken in turns until they are enough or the limit is up: noise can only lengthen a time.

    sides: name -> what to run. enough: given the least seconds so far, says whether every ratio meets its target.
    """
    least = dict.fromkeys(sides, math.inf)
    for turn in range(limit):
        for name, side in sides.items():
            started = clock()
            side()
            least[name] = min(least[name], clock() - started)
        if turn + 1 >= turns and enough(least):
            break
    return least


def all_meet(targets):
    """Give what says of least seconds whether each (slow, fast) of the targets has its ratio."""
    return lambda least: all(least[slow] >= ratio * least[fast] for (slow, fast), ratio in targets.items())
