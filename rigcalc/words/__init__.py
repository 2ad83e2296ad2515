"""The only row with prose: numbers as people read them, and the phrases of each question, made from the models' facts.

Every view (terminal, page, sheet, JSON) takes its words from here and never parses them. A second language is a second folder.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from rigcalc.models.size.answer import Answer
    from rigcalc.words.numbers import System
    from rigcalc.words.size import SizeWords


def in_words(answer: Answer, units: System | None = None) -> SizeWords:
    """Say an answer in plain words.

    Parameters
    ----------
    answer : Answer
        What `rigcalc.size` gave.
    units : str, optional
        "us" (American) or "si" (metric); as the rig's depth is typed where none is given.

    Returns
    -------
    SizeWords
        Prints as the answer's sentences, and holds every part in words: said (word, headline, rest), margins, reverse, season,
        notes, cautions, sure.

    Raises
    ------
    InputError
        For other units.

    Examples
    --------
    >>> import rigcalc
    >>> rigcalc.in_words(rigcalc.size("front_wheel_assist"), "si").said.word
    'Go'
    """
    from rigcalc.core.errors import Fault, InputError, shown
    from rigcalc.words.numbers import units_of
    from rigcalc.words.size import SizeWords

    if units not in (None, "us", "si"):
        raise InputError([Fault("units", shown(units), '"us" (American) or "si" (metric)', 'units="si"')])
    return SizeWords(answer, units or units_of(answer.rig))
