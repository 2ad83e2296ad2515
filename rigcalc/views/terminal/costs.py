"""What one more of an entry costs, under the working in a terminal."""

from __future__ import annotations

from rich.console import Console
from rich.padding import Padding
from rich.text import Text

from rigcalc.models.size.costs import costs
from rigcalc.words.size import SizeWords
from rigcalc.words.size.costs import NO_FORMULAS, cost_words


def print_costs(words: SizeWords, console: Console) -> None:
    """Print what an inch, a mile an hour and a tool more cost in draft and engine power, with the derivatives."""
    console.print(Text("\nWhat one more costs", style="bold"))
    said = [cost_words(cost, words.units) for cost in costs(words.answer)]
    for line in said:
        console.print(Padding(Text(line.text), (0, 0, 0, 3)))
        if line.formula:
            console.print(Padding(Text(line.formula, style="dim"), (0, 0, 0, 5)))
    if not all(line.formula for line in said):
        console.print(Padding(Text(NO_FORMULAS, style="dim"), (0, 0, 0, 3)))
