"""The words of notes and cautions around a ballast plan."""

from __future__ import annotations

from rigcalc.models.ballast.answer import BallastAnswer, Note
from rigcalc.words.cautions import caution_text
from rigcalc.words.numbers import System, percent, say
from rigcalc.words.spelling import spelt


def notes(answer: BallastAnswer) -> tuple[str, ...]:
    """Give every note as a text, the weightiest first."""
    return tuple(note_text(note, answer.units) for note in answer.notes)


def cautions(answer: BallastAnswer) -> tuple[str, ...]:
    """Give every caution as a text, in the answer's units."""
    return tuple(caution_text(key, answer.units) for key in answer.cautions)


def note_text(note: Note, units: System) -> str:
    """Say one note."""
    return spelt(_SAY[note.name](note, units), units)


def _overfilled(note: Note, _units: System) -> str:
    return f"The {note.axle} tyres hold more liquid than the usual 75 %: no cushion of air is left, and they burst sooner."


def _speed(note: Note, units: System) -> str:
    return (f"The load index of the {note.axle} tyres holds up to {say(note.value, 'km/h', units)} ({note.symbol}); "
            f"faster they carry less.")  # fmt: skip


def _no_pieces(_note: Note, _units: System) -> str:
    return "The rig file lists no pieces: add [[ballast]] sections for what is at hand (see docs/ballast.md)."


def _unweighed(_note: Note, _units: System) -> str:
    return ("The tool is mounted, but was not weighed raised: whether the front still steers then is not checked. Put "
            "front_raised and rear_raised under [scale], or raised_mass and raised_behind under [setup].")  # fmt: skip


def _no_mass_limit(_note: Note, _units: System) -> str:
    return "The maker's limit on mass with ballast is not known: put mass_limit under [setup]."


def _no_road_limits(_note: Note, _units: System) -> str:
    return "The law's axle limits on the road are not known: put road_front_limit and road_rear_limit under [setup]."


def _lighter(note: Note, _units: System) -> str:
    return (f"The best mass is for this job alone ({percent(note.value)} engine load). Heavier jobs want more: see the "
            f"other jobs before weights come off, or plan for them with the full job.")  # fmt: skip


def _pressure(note: Note, units: System) -> str:
    return ("Pressure is taken to follow the load, so that the tyres keep their deflection; the center of gravity keeps its "
            f"height of {say(note.value, 'm', units)}.")  # fmt: skip


def _memory(_note: Note, _units: System) -> str:
    return ("Grip comes from equations of the standard that stand here from memory: the top is flat, so a range is shown. Let "
            "a slip test in the field decide.")  # fmt: skip


_SAY = {
    "overfilled": _overfilled,
    "speed_of_index": _speed,
    "no_pieces": _no_pieces,
    "raised_unweighed": _unweighed,
    "no_mass_limit": _no_mass_limit,
    "no_road_limits": _no_road_limits,
    "lighter_job": _lighter,
    "pressure_follows": _pressure,
    "from_memory": _memory,
}
