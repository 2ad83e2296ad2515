"""Fields in words: the facts with everything that is said about them, in one system of units."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from rigcalc.models.passes.answer import FieldAnswer
from rigcalc.models.passes.heading import Driven, Way
from rigcalc.words.numbers import System, number, percent, say, to_shown
from rigcalc.words.passes.sentence import bearing, hours, say_fields, say_way
from rigcalc.words.passes.zones import zone_note, zone_rows
from rigcalc.words.said import Said

PARTS = {"work": "at work, full width", "twice": "ground worked twice", "turns": "turns", "travel": "ways between passes",
         "setting": "setting and looking"}  # fmt: skip
ALSO = {"asked": "as asked", "side": "along the longest side", "north": "north and south", "east": "east and west",
        "across": "across the best"}  # fmt: skip
HEADING_HEADS = ("Heading", "Degrees", "Passes", "Turns", "Worked twice", "Hours", "More")
FARM_HEADS = ("", "Field", "Area", "Heading", "Passes", "Hours", "Efficiency", "Rounds")
_TURN = {
    "typed": "A turn of {0} s, as typed.",
    "circle": "A turn of {0} s on arcs of the circle typed, {1} driven; a real one is a little longer.",
    "usual": "A turn of {0} s is taken, as is usual (common practice); time yours and type it.",
}


@dataclass(frozen=True)
class FieldWords:
    """Fields with their words, in American ("us") or metric ("si") units. answer: the facts; `str()` gives the sentences."""

    answer: FieldAnswer
    units: System

    @cached_property
    def said(self) -> Said:
        """What is said first: which way, how long, what it is worth."""
        return say_fields(self.answer, self.units)

    @property
    def parts(self) -> tuple[tuple[str, str, float], ...]:
        """Where the field hours of all fields go: what, hours, share."""
        ways = [self.answer.way_of(each) for each in self.answer.fields]
        whole = self.answer.hours
        sums = {name: sum(way.parts[name] for way in ways) for name in PARTS}
        return tuple((PARTS[name], hours(value), value / whole) for name, value in sums.items() if value > 0)

    @property
    def part_rows(self) -> tuple[tuple[str, str, str], ...]:
        """The same as a table."""
        return tuple((title, text, percent(share)) for title, text, share in self.parts)

    @property
    def for_season(self) -> tuple[str, ...]:
        """What to type into the boxes of a season, so that it knows these fields."""
        found, d = self.answer, self.answer.driving
        out = [f"Area: {self._typed(found.area, 'ha')}", f"A field holds: {self._typed(found.area / len(found.fields), 'ha')}",
               f"A move to the next field: {60 * found.move:.4g} min"]  # fmt: skip
        if (row := found.row_length) is not None and 5 < row < 20_000:
            out.append(f"Length of a pass: {self._typed(row, 'm')}, which loses what turns, ways and point rows lose here")
        out.append(f"A turn, tool out to tool in: {d.turn:.4g} s")
        out.append(f"Overlap from pass to pass: {self._typed(100 * (d.width - d.spacing), 'cm')}")
        return tuple(out)

    def headings(self, one: Driven) -> tuple[tuple[str, ...], ...]:
        """Headings beside each other: which, degrees, passes, turns, worked twice inside, hours, more than the best."""
        rows = [("best by time", one.best), *((ALSO[name], way) for name, way in one.also.items())]
        return tuple((name, *self._row(way), self._more(way, one)) for name, way in rows)

    def _row(self, way: Way) -> tuple[str, ...]:
        return (
            bearing(way.heading),
            str(way.passes),
            str(way.turns),
            say(way.ends + way.lap, "ha", self.units),
            hours(way.hours),
        )

    def _more(self, way: Way, one: Driven) -> str:
        share = way.hours / one.best.hours - 1
        return "-" if share < 0.0005 else f"+{percent(share)}"

    @cached_property
    def listed(self) -> tuple[tuple[str, ...], ...]:
        """The fields in the order to work them: place, name, area, heading, passes, hours, efficiency, rounds."""
        found, out = self.answer, []
        for place, at in enumerate(found.order, 1):
            each = found.fields[at]
            way = found.way_of(each)
            kept = each.boundary.area / (found.capacity * way.hours)
            out.append((str(place), each.boundary.name, say(each.boundary.area, "ha", self.units), bearing(way.heading),
                        str(way.passes), hours(way.hours), percent(kept), str(each.inside.rounds)))  # fmt: skip
        return tuple(out)

    @cached_property
    def notes(self) -> tuple[str, ...]:
        """What the answer rests on: what was taken, how it was worked out, what isn't counted."""
        found, d, u = self.answer, self.answer.driving, self.units
        path = say(found.turn.length, "m", u) if found.turn.length is not None else ""
        out = [_TURN[found.turn_known].format(number(d.turn, 2), path)]
        if found.turn.rounds is not None:
            deep = say(found.turn.deep, "m", u)
            out.append(f"Such a turn needs {found.turn.rounds} rounds along the boundary: {deep} beyond the end of a pass, "
                       "the tool's length and half its width.")  # fmt: skip
        rounds = "usual" if "rounds" in found.taken else "counted"
        lap = "usual for that steering" if "overlap" in found.taken else "typed"
        wide, over = say(d.width, "m", u), say(100 * (d.width - d.spacing), "cm", u)
        speed = say(3.6 * d.speed, "km/h", u)
        out.append(f"Width {wide}, overlap {over} ({lap}), {d.rounds} rounds along the boundary ({rounds}); speed {speed}.")
        out.append("The tool goes in and out square to the pass, so slanted ends are worked until its whole width is past; "
                   "each corner of a round that is sharper than 45° counts as a turn.")  # fmt: skip
        out.append(f"Headings are tried every {found.step:g}°, along the sides, and closer about the best; they are from true "
                   "north, which a compass and a map's grid miss by some degrees.")  # fmt: skip
        out.append(f"It lies at {self.place}: if it doesn't, longitude and latitude are swapped. Areas are those of the "
                   "ellipsoid (WGS 84), by a plane through the field; sides are straight, as on the ground.")  # fmt: skip
        if len(found.fields) > 1:
            out.append("Order: the nearest next, then crossings taken out, begun with the first; "
                       f"{say_way(found.way, u)} from middle to middle. Roads are longer.")  # fmt: skip
        return (*out, *filter(None, [zone_note(found)]))

    @cached_property
    def zones(self) -> tuple[tuple[str, ...], ...]:
        """Headland, lanes and the rest: which, area, share wheeled, draft, what to hold, hours more; none where unknown."""
        return zone_rows(self.answer, self.units)

    @property
    def place(self) -> str:
        """Where the first field lies: "47.000° S, 121.000° W"."""
        lon, lat = self.answer.fields[0].boundary.middle
        return f"{abs(lat):.3f}° {'S' if lat < 0 else 'N'}, {abs(lon):.3f}° {'W' if lon < 0 else 'E'}"

    @cached_property
    def to_type(self) -> tuple[str, ...]:
        """What to type elsewhere, so that the season and the ground know these fields."""
        found = self.answer
        kept = percent(found.efficiency).replace(" %", " percent")
        out = ["rigcalc season RIG --plan season.toml, a plan that --plan-out season.toml writes here",
               f'in the rig file [implement]: field_efficiency = "{kept}"; typed there it counts before a plan\'s']  # fmt: skip
        if len(found.fields) == 1:
            one = found.fields[0]
            land = one.inside.rounds * found.driving.spacing
            way = found.way_of(one)
            length = 1000 * way.length / way.passes + 2 * land
            wide = 1e4 * one.boundary.area / length
            out.append(f'rigcalc ground RIG --field "{self._typed(length, "m")} by {self._typed(wide, "m")}" '
                       f'--headland "{self._typed(max(land, 1.0), "m")}"')  # fmt: skip
        return tuple(out)

    def _typed(self, value: float, unit: str) -> str:
        shown, target = to_shown(value, unit, self.units)
        return f"{number(shown, 4).replace(',', '')} {target}"

    @property
    def plan(self) -> str:
        """A plan file for `rigcalc season` in which these fields cost what they cost here (TOML)."""
        found, d = self.answer, self.answer.driving
        lines = [f"# {len(found.fields)} field(s), {percent(found.efficiency)} field efficiency by their shape",
                 f'area = "{self._typed(found.area, "ha")}"', "", "[day]",
                 f'field_area = "{self._typed(found.area / len(found.fields), "ha")}"',
                 f'move = "{60 * found.move:.4g} min"', "", "[field]"]  # fmt: skip
        if (row := found.row_length) is not None and 5 < row < 20_000:
            lines.append("# as long as a pass between turns that loses what turns, ways, headland and point rows lose here")
            lines.append(f'row_length = "{self._typed(row, "m")}"')
        lines += [f'turn_time = "{d.turn:.4g} s"', f'overlap = "{self._typed(d.width - d.spacing, "m")}"',
                  f'adjust = "{100 * d.adjust:.4g} percent"']  # fmt: skip
        return "\n".join(lines) + "\n"

    def __str__(self) -> str:
        """Give the answer's sentences."""
        return str(self.said)
