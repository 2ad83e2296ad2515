"""A mistake in a declaration stops the import; a right one doesn't load pint."""

import subprocess
import sys

import pytest

from rigcalc.core.equation import BOOK, equation
from rigcalc.core.errors import DeclarationError
from rigcalc.core.nomenclature import S, Symbol

RIGHT = {"gives": S.power, "takes": (S.draft, S.speed), "source": "d497"}
MISTAKES = {
    "unit": ({"gives": Symbol("power", "P", "Nm", "power")}, "unit Nm"),
    "unit of an argument": ({"takes": (S.draft.in_("stone"), S.speed)}, "unit stone"),
    "order": ({"takes": (S.speed, S.draft)}, "signature"),
    "one too few": ({"takes": (S.draft,)}, "signature"),
    "one too many": ({"takes": (S.draft, S.speed, S.width)}, "signature"),
    "source": ({"source": "hearsay"}, "source hearsay"),
    "table": ({"table": "no_such_table"}, "table no_such_table"),
    "sure": ({"sure": "quite"}, "'quite'"),
    "valid": ({"valid": {"depth": (0, 1)}}, "valid names depth"),
}


@pytest.fixture(autouse=True)
def book_as_it_was():
    before = dict(BOOK)
    yield
    BOOK.clear()
    BOOK.update(before)


@pytest.mark.parametrize("mistake", sorted(MISTAKES))
def test_mistake(mistake):
    change, words = MISTAKES[mistake]
    with pytest.raises(DeclarationError, match=words):

        @equation(**(RIGHT | change))
        def made_up(draft, speed):
            """Text."""
            return draft * speed

    assert "made_up" not in BOOK


def test_right_one_is_taken():
    @equation(**RIGHT)
    def made_up(draft, speed):
        """Text."""
        return draft * speed

    assert BOOK["made_up"] is made_up


def test_no_docstring():
    with pytest.raises(DeclarationError, match="docstring"):

        @equation(**RIGHT)
        def made_up(draft, speed):
            return draft * speed


def test_a_name_that_is_taken():
    import rigcalc.equations.draft  # noqa: F401

    with pytest.raises(DeclarationError, match="another equation"):

        @equation(gives=S.drawbar_power, takes=(S.draft, S.speed), source="d497")
        def drawbar_power(draft, speed):
            """Text."""
            return draft * speed


def test_all_mistakes_at_once():
    with pytest.raises(DeclarationError) as refused:

        @equation(gives=S.power, takes=(S.speed,), source="hearsay", table="no_such_table", sure="quite")
        def made_up(draft, speed):
            return draft * speed

    assert str(refused.value).count(";") == 4


def test_the_book_is_declared_without_pint():
    code = "import sys; import rigcalc; rigcalc.load_all(); assert not {'pint', 'sympy'} & set(sys.modules)"
    subprocess.run([sys.executable, "-c", code], check=True)
