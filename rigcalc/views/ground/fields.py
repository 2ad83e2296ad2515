"""The entries about the ground: what a clod and a handful say, flags of a probe, soil test, wheels of others, residue."""

from __future__ import annotations

from functools import cache

from rigcalc.core.tables import table
from rigcalc.models.ground.typed import flags_typed
from rigcalc.views.rig.fields import setting
from rigcalc.widgets.fields import Choice, Lines, Section, Text, number, plain
from rigcalc.words.numbers import System
from rigcalc.words.weather_file import UNITS_NAMED
from rigcalc.words.wetness import FEELS

FLAGS, FLAGS_AFTER = "ground.flags", "ground.flags_after"
OWN = "own.ground."  # before what is asked about a file of weather, which is this page's own
UNITS = f"{OWN}weather_units"
_FLAG_UNITS: dict[System, tuple[str, str]] = {"us": ("in", "psi"), "si": ("cm", "kPa")}
_FLAG_HELP: dict[System, str] = {
    "us": "A line for each flag, in inches and psi: where the needle passes 300 psi going in, where it comes back, the most it "
    "showed, such as 8 12 350. Or: 9 deeper; none. Or paste a table with headings such as: depth (in), flag 1 (psi)",
    "si": "A line for each flag, in cm and kPa: where the needle passes 2000 kPa going in, where it comes back, the most it "
    "showed, such as 20 30 2400. Or: 23 deeper; none. Or paste a table with headings such as: depth (cm); flag 1 (kPa)",
}
_AFTER_HELP: dict[System, str] = {
    "us": "As above: a line for each flag, such as 8 12 350, 9 deeper, or none. The places needn't be the same.",
    "si": "As above: a line for each flag, such as 20 30 2400, 23 deeper, or none. The places needn't be the same.",
}


_FIELD_HELP: dict[System, str] = {
    "us": "length along the passes by width, such as 2600 ft by 1300 ft",
    "si": "length along the passes by width, such as 800 m by 400 m",
}
_TRAFFIC_HELP: dict[System, str] = {
    "us": "combine: 30 ft apart, 2 tires of 30 in; cart: lanes 120 ft apart, 2 tires of 42 in",
    "si": "combine: 9 m apart, 2 tyres of 75 cm; cart: lanes 36 m apart, 2 tyres of 105 cm",
}

WEATHER = (
    Section(
        "Of the weather file",
        (
            Choice(UNITS, "Units of the weather file", (("", "by its headings"), *UNITS_NAMED), "never guessed"),
            Text(f"{OWN}latitude", "Where it was read", "latitude, such as 46.9; south negative; the file may say it"),
            Text(f"{OWN}day", "Day asked about", "year-month-day, such as 1996-10-01; the last one, if left empty"),
            plain(f"{OWN}water_left", "Water that the crop left", "0 100 5 percent", "of what plants can take"),
        ),
        open=True,
    ),
)
OF_WEATHER = tuple(field.path for field in WEATHER[0].fields)


@cache
def seen(system: System = "us") -> tuple[Section, ...]:
    """Give what is asked first: the depth, a clod from there, a handful, the flags."""
    thread = "1/8 in" if system == "us" else "3 mm"
    rolled = (("", "not tried"), ("crumbles", "crumbles first"), ("rolls", "rolls out"))
    feels = (("", "not felt"), *FEELS.items())
    return (
        Section(
            "How wet",
            (
                setting()[0].fields[0],
                Choice("ground.thread_test", f"Clod rolled to a {thread} thread", rolled, "dug at that depth", in_sight=True),
                Choice("ground.wetness", "How a handful feels", feels, "from that depth too"),
            ),
        ),
        Section(
            "How deep",
            (
                Lines(FLAGS, "Flags of a probe", _FLAG_HELP[system], rows=8),
                plain("ground.flags_under", "Flags with a layer to get under", "50 100 5 percent", "80 percent, if left empty"),
            ),
        ),
    )


@cache
def more(system: System = "us") -> tuple[Section, ...]:
    """Give what is asked in folds: flags after the pass, slope, soil test, samples, wheels, parts of the field, residue."""
    textures = tuple((row["texture"], row["texture"]) for row in table("soil_groups"))
    kinds = (("", "corn or cereals"), ("fragile", "soybean or the like"))
    ways = (("", "not said"), ("across", "across it"), ("along", "up and down"))
    return (
        Section(
            "After the pass: did it work",
            (Lines(FLAGS_AFTER, "Flags after the pass", _AFTER_HELP[system], rows=8),),
            note="Probe again when the ground is as moist as before, on the lines of the shanks and between them.",
        ),
        Section(
            "Strips with the pass and without",
            (
                plain("ground.trial_see", "Difference in yield to see", "1 30 1 percent", "then it says how many pairs"),
                plain("ground.trial_pairs", "Pairs of strips there are", "2 40 1", "then it says what they show"),
                plain(
                    "ground.trial_scatter", "Strips alike differ by", "1 30 1 percent", "of the yield; 5 to 12 %, if left empty"
                ),
            ),
            note="One strip of each pair worked and one not, by lot. No gain is promised.",
        ),
        Section(
            "Slope of the field",
            (
                plain(
                    "ground.slope", "Steepest slope", "0 30 0.5 percent", "also takes degrees, as a phone laid on a board shows"
                ),
                Choice("ground.passes_run", "The passes run", ways, "counts from a slope of 2 percent on", in_sight=True),
            ),
        ),
        Section(
            "Soil test",
            (
                Choice("ground.texture", "Soil texture", (*textures, ("", "by sand and clay")), "from the soil map or by feel"),
                plain("ground.sand", "Sand", "0 100 1 percent"),
                plain("ground.clay", "Clay", "0 100 1 percent"),
                plain("ground.organic_matter", "Organic matter", "0 15 0.1 percent"),
                plain("ground.plastic_limit", "Plastic limit", "5 60 0.5 percent", "from a laboratory, water by mass"),
                plain("ground.bulk_density", "Dry bulk density", "0.8 1.9 0.01 g/cm**3", "of a ring that was dried"),
            ),
        ),
        Section(
            "Water that was measured",
            (
                plain("ground.water_by_mass", "Water by mass", "1 60 0.5 percent", "weighed, dried, weighed again"),
                plain("ground.water_by_volume", "Water by volume", "1 60 0.5 percent", "by a moisture probe"),
                number(
                    "ground.sampled_at", "Dug or sampled at", "1 30 0.5 in", "2 80 1 cm", "where it isn't the depth of work"
                ),
            ),
        ),
        Section(
            "Other wheels on the field",
            (Text("ground.axles", "Their axles", "cart: 40000 lb on 2 tires of 42 in by 78 in; parted by semicolons"),),
            note="Width by height of the tyre. The tractor's own axles are counted already.",
        ),
        Section(
            "Where: headland, lanes and the rest",
            (
                Text("ground.field", "The field", _FIELD_HELP[system]),
                Text("ground.headland", "Headland at each end", "two widths of the tool, if left empty"),
                Text("ground.traffic", "What else drove there", _TRAFFIC_HELP[system]),
            ),
            note="Share wheeled, draft, what to hold, hours and fuel of each part; lanes that all would keep to.",
        ),
        Section(
            "Yield that compaction costs",
            (
                Text("ground.yield_loss", "In the first year", "6 to 30 percent, if left empty; where wheels ran"),
                Text("ground.yield_loss_lasting", "For good", "2.5 to 10 percent, if left empty"),
                Text("ground.yield_loss_fades", "The rest fades in", "5 to 10 years, if left empty"),
            ),
            note="Spans of trials that the farm press tells of, no promise. Strips of your own beat them.",
        ),
        Section(
            "Residue",
            (
                plain("ground.residue_cover", "Covered before the pass", "0 100 1 percent", "count on a line of 100 marks"),
                plain("ground.residue_keep", "To keep at least", "0 100 1 percent"),
                Choice("ground.residue", "Residue of", kinds),
            ),
        ),
    )


def with_units(text: str, system: System) -> str:
    """Give flags as typed with the units that stand at the box: `8 12 350` becomes `8 in to 12 in, 350 psi`."""
    return flags_typed(text, *_FLAG_UNITS[system])
