"""The words of the season: is it done in time, what a day is made of, what would help, what it costs."""

from rigcalc.words.season.answer import SeasonWords

__all__ = ["SeasonWords"]
