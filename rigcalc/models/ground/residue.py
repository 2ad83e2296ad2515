"""What a chain of passes leaves of the residue on top, against the least that somebody wants to keep."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.tables import table
from rigcalc.core.units import parse
from rigcalc.equations.residue import cover_after
from rigcalc.models.machine.judgement import Judgement

KINDS = ("non_fragile", "fragile")
MOST_PASSES = 30
_SHOWN = 4  # operations that a message offers


@dataclass(frozen=True)
class Pass:
    """One pass: the operation of the table, the share that it leaves, and the cover after it, each (low, high).

    sure: how sure the least sure of its rows is. by_kind: False where its source doesn't part residue by kind.
    """

    operation: str
    left: tuple[float, float]
    cover: tuple[float, float]
    sure: str
    by_kind: bool


@dataclass(frozen=True)
class Residue:
    """Cover before, after each pass and at the end, as shares (low, high), against the least to keep (None: nobody said)."""

    kind: str
    before: float
    passes: tuple[Pass, ...]
    keep: float | None

    @property
    def after(self) -> tuple[float, float]:
        """Cover after the last pass."""
        return self.passes[-1].cover

    @property
    def judgement(self) -> Judgement | None:
        """Don't where even the most is too little, try where the least is; None where nobody said how much to keep."""
        if self.keep is None:
            return None
        low, high = (round(end, 9) for end in self.after)  # 80 % of 50 % is 40 %
        return Judgement.DONT if high < self.keep else Judgement.TRY if low < self.keep else Judgement.GO

    @property
    def lost_at(self) -> Pass | None:
        """The first pass whose cover, at the least, is under what is to be kept; None where none is or nobody said."""
        return next((one for one in self.passes if self.keep is not None and round(one.cover[0], 9) < self.keep), None)


def operations() -> tuple[str, ...]:
    """Give the operations of the table, in its order."""
    return tuple(dict.fromkeys(row["operation"] for row in table("residue")))


def own_pass(tool: str) -> str | None:
    """Give the operation of a rig's own tool; None where the table has none that fits."""
    return next((row["operation"] for row in table("residue_of_tools") if row["tool"] == tool), None)


def residue_left(
    tool: str, before: Any = None, passes: Sequence[str] = (), kind: Any = "non_fragile", keep: Any = None
) -> Residue | None:
    """Work out the cover that a chain of passes leaves; None where nothing of it was asked.

    tool: row of the draft table, whose pass is taken where none is named; "this" in `passes` names it too. before and keep:
    shares as text with a unit. kind: "non_fragile" (corn, cereals) or "fragile" (soybean). Raises InputError, all at once.
    """
    asked = before is not None or keep is not None or (not isinstance(passes, str) and bool(passes))
    if not asked and kind in KINDS and not isinstance(passes, str):
        return None
    faults: list[Fault] = []
    start = _share("cover", before, faults)
    least = None if keep is None else _share("keep", keep, faults)
    if kind not in KINDS:
        faults.append(Fault("residue", shown(kind), "non_fragile (corn, cereals) or fragile (soybean)", "non_fragile"))
        kind = KINDS[0]
    chain: list[Pass] = []
    cover = (start, start)
    for place, name in enumerate(_names(tool, passes, faults), 1):
        one = _pass(name, str(kind), cover, f"pass {place}", faults)
        if one is not None:
            chain.append(one)
            cover = one.cover
    if faults:
        raise InputError(faults)
    return Residue(str(kind), start, tuple(chain), least)


def _names(tool: str, passes: Any, faults: list[Fault]) -> list[str]:
    if isinstance(passes, str) or not isinstance(passes, Sequence) or not all(isinstance(name, str) for name in passes):
        faults.append(Fault("passes", shown(passes), "a list of operations", '["chisel_plow_straight_point", "this"]'))
        return []
    if len(passes) > MOST_PASSES:
        faults.append(Fault("passes", f"{len(passes):,} passes", f"at most {MOST_PASSES}", "those of one season"))
        return []
    own = own_pass(tool)
    names = list(passes) or ["this"]
    if own is None and "this" in names:
        faults.append(Fault("passes", f"no row of the residue table for {tool}", "an operation of that table",
                            ", ".join(operations()[:_SHOWN])))  # fmt: skip
        return [name for name in names if name != "this"]
    return [own if name == "this" and own is not None else name for name in names]


def _pass(name: str, kind: str, cover: tuple[float, float], where: str, faults: list[Fault]) -> Pass | None:
    rows = [row for row in table("residue") if row["operation"] == name and row["residue"] == kind]
    by_kind = bool(rows)
    rows = rows or [row for row in table("residue") if row["operation"] == name and row["residue"] == "unspecified"]
    if not rows:
        faults.append(Fault(where, shown(name), "an operation of the residue table, or this for the rig's own", _near(name)))
        return None
    low, high = min(row["low"] for row in rows) / 100, max(row["high"] for row in rows) / 100
    after = (float(cover_after.bare(cover[0], low)), float(cover_after.bare(cover[1], high)))
    sure = "low confidence" if any(row["note"] for row in rows) else str(rows[-1]["sure"])
    return Pass(name, (low, high), after, sure, by_kind)


def _near(name: str) -> str:
    """Give operations that look like what was typed, else the first few."""
    import difflib

    names = operations()
    words = [one for one in names if name and name[:100].lower().replace(" ", "_") in one]
    return ", ".join((words or difflib.get_close_matches(name[:100], names, _SHOWN, 0.4) or list(names))[:_SHOWN])


def _share(where: str, text: Any, faults: list[Fault]) -> float:
    """Read a share typed as "85 percent", 0 to 100 percent."""
    try:
        number, unit = parse(text)
    except (InputError, TypeError):
        number, unit = -1.0, ""
    share = number / 100 if unit == "percent" else number
    if unit not in ("", "percent", "1") or not 0 <= share <= 1 or (where == "cover" and share == 0):
        got = "nothing" if text is None else shown(text)
        asked = "the share of the ground covered before the passes" if where == "cover" else "the least share to keep"
        faults.append(Fault(where, got, f"{asked}, up to 100 percent", '"85 percent"' if where == "cover" else '"30 percent"'))
        return 0.0
    return share
