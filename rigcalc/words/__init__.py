"""The only row with prose: numbers as people read them, and the phrases of each question, made from the models' facts.

Every view (terminal, page, sheet, JSON) takes its words from here and never parses them. A second language is a second folder.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, overload

if TYPE_CHECKING:
    from rigcalc.models.compare.answer import Comparison
    from rigcalc.models.ground.answer import GroundAnswer
    from rigcalc.models.passes.answer import FieldAnswer
    from rigcalc.models.season.answer import SeasonAnswer
    from rigcalc.models.shortlist.answer import Shortlist
    from rigcalc.models.size.answer import Answer
    from rigcalc.words.compare import CompareWords
    from rigcalc.words.ground import GroundWords
    from rigcalc.words.numbers import System
    from rigcalc.words.passes import FieldWords
    from rigcalc.words.season import SeasonWords
    from rigcalc.words.shortlist import ShortlistWords
    from rigcalc.words.size import SizeWords


@overload
def in_words(answer: Answer, units: System | None = None) -> SizeWords: ...
@overload
def in_words(answer: Comparison, units: System | None = None) -> CompareWords: ...
@overload
def in_words(answer: GroundAnswer, units: System | None = None) -> GroundWords: ...
@overload
def in_words(answer: Shortlist, units: System | None = None) -> ShortlistWords: ...
@overload
def in_words(answer: FieldAnswer, units: System | None = None) -> FieldWords: ...
@overload
def in_words(answer: SeasonAnswer, units: System | None = None) -> SeasonWords: ...
def in_words(
    answer: Answer | Comparison | GroundAnswer | Shortlist | SeasonAnswer | FieldAnswer, units: System | None = None
) -> SizeWords | CompareWords | GroundWords | ShortlistWords | SeasonWords | FieldWords:
    """Say an answer in plain words.

    Parameters
    ----------
    answer : Answer, Comparison, GroundAnswer, Shortlist, SeasonAnswer or FieldAnswer
        What `rigcalc.size`, `rigcalc.compare`, `rigcalc.ground`, `rigcalc.shortlist`, `rigcalc.season` or `rigcalc.field` gave.
    units : str, optional
        "us" (American) or "si" (metric); as the (first) rig's depth is typed where none is given.

    Returns
    -------
    SizeWords, CompareWords, GroundWords, ShortlistWords, SeasonWords or FieldWords
        Prints as the answer's sentences, and holds every part in words: said (word, headline, rest), margins, reverse, season,
        notes, cautions, sure; of a comparison said, rows, same, each; of the ground said, layer, flags, shares, tool, axles,
        pressing, residue, worked, trial, notes, cautions.

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
    from rigcalc.models.size.answer import Answer
    from rigcalc.words.numbers import units_of
    from rigcalc.words.size import SizeWords

    if units not in (None, "us", "si"):
        raise InputError([Fault("units", shown(units), '"us" (American) or "si" (metric)', 'units="si"')])
    if isinstance(answer, Answer):
        return SizeWords(answer, units or units_of(answer.rig))
    from rigcalc.models.ground.answer import GroundAnswer

    if isinstance(answer, GroundAnswer):
        from rigcalc.words.ground import GroundWords

        return GroundWords(answer, units or units_of(answer.rig))
    from rigcalc.models.shortlist.answer import Shortlist

    if isinstance(answer, Shortlist):
        from rigcalc.words.shortlist import ShortlistWords

        return ShortlistWords(answer, units or units_of(answer.rig))
    from rigcalc.models.season.answer import SeasonAnswer

    if isinstance(answer, SeasonAnswer):
        from rigcalc.words.season import SeasonWords

        return SeasonWords(answer, units or units_of(answer.rig))
    from rigcalc.models.passes.answer import FieldAnswer

    if isinstance(answer, FieldAnswer):
        from rigcalc.words.passes import FieldWords

        return FieldWords(answer, units or units_of(answer.rig))
    from rigcalc.words.compare import CompareWords

    return CompareWords(answer, units or units_of(answer.rigs[0].answer.rig))
