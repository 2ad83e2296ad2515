"""A body's formula as it stands on the page: plain text and LaTeX from the code itself, in the order it is written.

sympy would reorder the terms; an engineer who lays the formula beside its source wants them where the source has them.
A test holds every formula against the sympy trace of the same body.
"""

from __future__ import annotations

import ast
import inspect
import textwrap
from collections.abc import Callable, Mapping
from functools import cache

from rigcalc.core.equation import Equation

_FUNCTIONS = {"exp": r"\exp", "sqrt": r"\sqrt", "sin": r"\sin", "cos": r"\cos", "tan": r"\tan", "log": r"\ln"}
_TIGHTNESS = {ast.Add: 1, ast.Sub: 1, ast.Mult: 2, ast.Div: 2, ast.USub: 3, ast.Pow: 4}


@cache
def formula(eq: Equation) -> ast.expr:
    """Give what the body returns as a syntax tree, with its local names put in."""
    tree = ast.parse(textwrap.dedent(inspect.getsource(eq.bare)))
    function = tree.body[0]
    assert isinstance(function, ast.FunctionDef)
    local: dict[str, ast.expr] = {}
    for statement in function.body:
        if isinstance(statement, ast.Assign) and isinstance(statement.targets[0], ast.Name):
            local[statement.targets[0].id] = _Put(local).visit(statement.value)
        elif isinstance(statement, ast.Return) and statement.value is not None:
            made: ast.expr = _Put(local).visit(statement.value)
            return made
    raise TypeError(f"{eq.__name__} is not one formula")


class _Put(ast.NodeTransformer):
    """Put expressions in for names."""

    def __init__(self, names: Mapping[str, ast.expr]):
        self.names = names

    def visit_Name(self, node: ast.Name) -> ast.expr:
        return self.names.get(node.id, node)


def plain(eq: Equation, names: Mapping[str, str] | None = None) -> str:
    """Give the right-hand side as plain text; `names` replaces an argument's name, with a number for example."""
    given = names or {}
    return _plain(formula(eq), lambda name: given.get(name, name))[0]


def latex(eq: Equation, names: Mapping[str, str] | None = None) -> str:
    """Give the right-hand side as LaTeX; `names` replaces an argument's symbol, with a number for example."""
    symbols = names or {symbol.name: symbol.latex for symbol in eq.takes}
    return _latex(formula(eq), lambda name: symbols.get(name, name), r" \times " if names else r" \, ")[0]


def _plain(node: ast.expr, name: Callable[[str], str]) -> tuple[str, int]:
    """Give (text, how tightly its outermost operation binds)."""
    if isinstance(node, ast.BinOp):
        tight = _TIGHTNESS[type(node.op)]
        left, right = _plain(node.left, name), _plain(node.right, name)
        sign = {ast.Add: " + ", ast.Sub: " - ", ast.Mult: " * ", ast.Div: " / ", ast.Pow: "^"}[type(node.op)]
        stricter = isinstance(node.op, (ast.Sub, ast.Div))
        a = _fenced(*left, tight + (1 if isinstance(node.op, ast.Pow) else 0))
        return a + sign + _fenced(*right, tight + (1 if stricter or isinstance(node.op, ast.Pow) else 0)), tight
    if isinstance(node, ast.UnaryOp):
        return "-" + _fenced(*_plain(node.operand, name), 3), 3
    if isinstance(node, ast.Call):
        called = _called(node)
        inner = _plain(node.args[0], name)
        if called == "deg2rad":
            return f"{_fenced(*inner, 9)}°", 9
        return f"{called}({inner[0]})", 9
    return _leaf(node, name), 9


def _latex(node: ast.expr, name: Callable[[str], str], times: str) -> tuple[str, int]:
    if isinstance(node, ast.BinOp):
        tight = _TIGHTNESS[type(node.op)]
        left, right = _latex(node.left, name, times), _latex(node.right, name, times)
        if isinstance(node.op, ast.Div):
            return rf"\frac{{{left[0]}}}{{{right[0]}}}", 4
        if isinstance(node.op, ast.Pow):
            return f"{_fenced(*left, 5, latex=True)}^{{{right[0]}}}", 4
        cross = r" \cdot " if right[0][0].isdigit() and times == r" \, " else times
        sign = {ast.Add: " + ", ast.Sub: " - ", ast.Mult: cross}[type(node.op)]
        bare_right = tight + 1 if isinstance(node.op, ast.Sub) else tight
        return _fenced(*left, tight, latex=True) + sign + _fenced(*right, bare_right, latex=True), tight
    if isinstance(node, ast.UnaryOp):
        return "-" + _fenced(*_latex(node.operand, name, times), 3, latex=True), 3
    if isinstance(node, ast.Call):
        called = _called(node)
        inner = _latex(node.args[0], name, times)
        if called == "deg2rad":
            return f"{_fenced(*inner, 9, latex=True)}^{{\\circ}}", 9
        if called == "sqrt":
            return rf"\sqrt{{{inner[0]}}}", 9
        if called == "exp":
            return rf"e^{{{inner[0]}}}", 4
        return rf"{_FUNCTIONS[called]}\left({inner[0]}\right)", 9
    return _leaf(node, name).replace("pi", r"\pi"), 9


def _called(node: ast.Call) -> str:
    assert isinstance(node.func, ast.Attribute)
    return node.func.attr


def _leaf(node: ast.expr, name: Callable[[str], str]) -> str:
    if isinstance(node, ast.Name):
        return name(node.id)
    if isinstance(node, ast.Attribute):
        return node.attr  # np.pi
    assert isinstance(node, ast.Constant)
    return str(node.value)


def _fenced(text: str, tight: int, wanted: int, latex: bool = False) -> str:
    if tight >= wanted:
        return text
    return rf"\left({text}\right)" if latex else f"({text})"
