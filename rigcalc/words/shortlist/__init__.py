"""The words of a shortlist: which tractor for this tool, how wide a tool for this tractor."""

from rigcalc.words.shortlist.answer import ShortlistWords

__all__ = ["ShortlistWords"]
