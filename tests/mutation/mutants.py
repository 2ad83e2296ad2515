"""Small faults put into a file one at a time: an operator, a sign, a constant, a comparison, a term left out.

A mutant is one cut of the text, so everything else in the file stays as it was, comments and all.
"""

from __future__ import annotations

import ast
from dataclasses import dataclass
from pathlib import Path

_ARITHMETIC = {ast.Add: "-", ast.Sub: "+", ast.Mult: "/", ast.Div: "*", ast.FloorDiv: "/", ast.Pow: "*", ast.Mod: "*",
               ast.BitAnd: "|", ast.BitOr: "&"}  # fmt: skip
_COMPARISON = {
    ast.Lt: ("<=", ">"), ast.LtE: ("<", ">"), ast.Gt: (">=", "<"), ast.GtE: (">", "<"), ast.Eq: ("!=",), ast.NotEq: ("==",),
    ast.In: ("not in",), ast.NotIn: ("in",), ast.Is: ("is not",), ast.IsNot: ("is",),
}  # fmt: skip
_TWINS = (("min", "max"), ("minimum", "maximum"), ("fmin", "fmax"), ("any", "all"), ("ceil", "floor"), ("argmin", "argmax"),
          ("sin", "cos"), ("deg2rad", "rad2deg"))  # fmt: skip
_OTHER_NAME = {**dict(_TWINS), **{b: a for a, b in _TWINS}}


@dataclass(frozen=True, order=True)
class Mutant:
    """One fault: in `path`, the characters from `start` to `end` become `new`."""

    path: str
    start: int
    end: int
    new: str
    line: int
    kind: str

    def text(self, source: str) -> str:
        """Give the whole file with the fault in it."""
        return source[: self.start] + self.new + source[self.end :]

    def shown(self, source: str) -> tuple[str, str]:
        """Give the faulty lines, before and after, each on one line."""
        first, last = source.rfind("\n", 0, self.start) + 1, source.find("\n", self.end)
        before, after = source[first:last], source[first : self.start] + self.new + source[self.end : last]
        return " ".join(before.split()), " ".join(after.split())


def mutants(path: str, source: str) -> list[Mutant]:
    """Give every fault that can be put into a file, in the order of its text. Each leaves a file that compiles."""
    finder = _Finder(path, source)
    finder.visit(ast.parse(source))
    return sorted(set(finder.found))


def all_mutants(root: Path, folder: str) -> list[Mutant]:
    """Give every fault of every file under a folder (or of one file)."""
    files = [root / folder] if folder.endswith(".py") else sorted((root / folder).rglob("*.py"))
    names = [str(file.relative_to(root)) for file in files]
    return [mutant for name in names for mutant in mutants(name, (root / name).read_text(encoding="utf-8"))]


class _Finder(ast.NodeVisitor):
    def __init__(self, path: str, source: str):
        self.path, self.source, self.found = path, source, []
        self.starts = [0]
        for line in source.splitlines(keepends=True):
            self.starts.append(self.starts[-1] + len(line))

    # Where things stand in the text.

    def at(self, line: int, column: int) -> int:
        start = self.starts[line - 1]
        return start + len(self.source[start : self.starts[line]].encode()[:column].decode())

    def span(self, node: ast.AST) -> tuple[int, int]:
        return self.at(node.lineno, node.col_offset), self.at(node.end_lineno, node.end_col_offset)

    def put(self, node: ast.AST, span: tuple[int, int], new: str, kind: str) -> None:
        self.found.append(Mutant(self.path, *span, new, node.lineno, kind))

    def swap(self, node: ast.AST, between: tuple[ast.AST, ast.AST], old: str, news: tuple[str, ...], kind: str) -> None:
        """Change the operator `old` that stands between two parts."""
        begin, end = self.span(between[0])[1], self.span(between[1])[0]
        gap = self.source[begin:end]
        place = gap.find(old)
        if place < 0 or "#" in gap:
            return
        for new in news:
            self.put(node, (begin + place, begin + place + len(old)), new, kind)

    # What is left alone: what is there for readers and type checkers.

    def visit_Expr(self, node: ast.Expr) -> None:
        if isinstance(node.value, ast.Constant):
            return
        if isinstance(node.value, ast.Call):
            self.put(node, self.span(node), "pass", "left out")
        self.generic_visit(node)

    def visit_AnnAssign(self, node: ast.AnnAssign) -> None:
        if node.value:
            self.visit(node.value)

    def visit_arg(self, node: ast.arg) -> None: ...

    def visit_keyword(self, node: ast.keyword) -> None:
        if node.arg not in ("frozen", "repr"):
            self.generic_visit(node)

    def visit_JoinedStr(self, node: ast.JoinedStr) -> None: ...  # places inside a formatted text aren't sure before Python 3.12

    def visit_FunctionDef(self, node: ast.FunctionDef) -> None:
        for part in (*node.decorator_list, *node.args.defaults, *filter(None, node.args.kw_defaults), *node.body):
            self.visit(part)

    # What is changed.

    def visit_BinOp(self, node: ast.BinOp) -> None:
        symbols = {ast.Add: "+", ast.Sub: "-", ast.Mult: "*", ast.Div: "/", ast.FloorDiv: "//", ast.Pow: "**", ast.Mod: "%",
                   ast.BitAnd: "&", ast.BitOr: "|"}  # fmt: skip
        kind = type(node.op)
        if kind in symbols and not _is_text(node.left) and not _is_text(node.right):
            self.swap(node, (node.left, node.right), symbols[kind], (_ARITHMETIC[kind],), "operator")
            if kind not in (ast.BitAnd, ast.BitOr):
                left = self.source[slice(*self.span(node.left))]
                self.put(node, self.span(node), left, "term dropped")
        self.generic_visit(node)

    def visit_AugAssign(self, node: ast.AugAssign) -> None:
        if isinstance(node.op, (ast.Add, ast.Sub)):
            old = "+=" if isinstance(node.op, ast.Add) else "-="
            self.swap(node, (node.target, node.value), old, ("-=" if old == "+=" else "+=", "="), "operator")
        self.generic_visit(node)

    def visit_UnaryOp(self, node: ast.UnaryOp) -> None:
        if isinstance(node.op, (ast.USub, ast.Not)):
            kind = "sign" if isinstance(node.op, ast.USub) else "condition"
            self.put(node, self.span(node), self.source[slice(*self.span(node.operand))], kind)
        self.generic_visit(node)

    def visit_Compare(self, node: ast.Compare) -> None:
        words = {ast.Lt: "<", ast.LtE: "<=", ast.Gt: ">", ast.GtE: ">=", ast.Eq: "==", ast.NotEq: "!=", ast.In: "in",
                 ast.NotIn: "not in", ast.Is: "is", ast.IsNot: "is not"}  # fmt: skip
        parts = [node.left, *node.comparators]
        for number, op in enumerate(node.ops):
            self.swap(node, (parts[number], parts[number + 1]), words[type(op)], _COMPARISON[type(op)], "comparison")
        self.generic_visit(node)

    def visit_BoolOp(self, node: ast.BoolOp) -> None:
        old, new = ("and", "or") if isinstance(node.op, ast.And) else ("or", "and")
        for pair in zip(node.values, node.values[1:], strict=False):
            self.swap(node, pair, old, (new,), "condition")
        self.generic_visit(node)

    def visit_IfExp(self, node: ast.IfExp) -> None:
        test = self.source[slice(*self.span(node.test))]
        self.put(node, self.span(node.test), f"(not ({test}))", "condition")
        self.generic_visit(node)

    def visit_If(self, node: ast.If) -> None:
        test = self.source[slice(*self.span(node.test))]
        if test != "TYPE_CHECKING":
            self.put(node, self.span(node.test), f"not ({test})", "condition")
        self.generic_visit(node)

    def visit_comprehension(self, node: ast.comprehension) -> None:
        for test in node.ifs:
            self.put(test, self.span(test), f"(not ({self.source[slice(*self.span(test))]}))", "condition")
        self.generic_visit(node)

    def visit_Constant(self, node: ast.Constant) -> None:
        if node.value is True or node.value is False:
            self.put(node, self.span(node), str(not node.value), "constant")
        elif isinstance(node.value, int):
            for new in (node.value + 1, node.value - 1):
                self.put(node, self.span(node), f"({new})" if new < 0 else str(new), "off by one")
        elif isinstance(node.value, float):
            self.put(node, self.span(node), repr(node.value * 1.1 if node.value else 1.0), "constant")

    def visit_Name(self, node: ast.Name) -> None:
        self.rename(node, node.id, self.span(node))

    def visit_Attribute(self, node: ast.Attribute) -> None:
        end = self.span(node)[1]
        self.rename(node, node.attr, (end - len(node.attr), end))
        self.generic_visit(node)

    def rename(self, node: ast.AST, name: str, span: tuple[int, int]) -> None:
        if name in _OTHER_NAME and isinstance(getattr(node, "ctx", None), ast.Load):
            self.put(node, span, _OTHER_NAME[name], "name")

    def visit_Break(self, node: ast.Break) -> None:
        self.put(node, self.span(node), "continue", "condition")

    def visit_Continue(self, node: ast.Continue) -> None:
        self.put(node, self.span(node), "break", "condition")


def _is_text(node: ast.AST) -> bool:
    return isinstance(node, ast.JoinedStr) or (isinstance(node, ast.Constant) and isinstance(node.value, str))
