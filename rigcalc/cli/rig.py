"""`rigcalc new` and `rigcalc check`: a rig file by asking or to fill in, and what is wrong with one."""

from __future__ import annotations

import shlex
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

from rigcalc.cli.common import units_option
from rigcalc.cli.writing import write_beside
from rigcalc.core.errors import Fault, InputError, printable, shown

_NAME, _TRIES = "my_rig", 100


@click.command()
@click.argument("file", required=False)
@click.option("--full", is_flag=True, help="Write the starter with every entry there is, each explained; ask nothing.")
@click.option("--small", is_flag=True, help="Write the small starter; ask nothing.")
@units_option
def new(file: str | None, full: bool, small: bool, units: Any) -> None:
    """Make a rig file: in a terminal by asking about a dozen questions, else the small starter to fill in.

    Enter answers "don't know": a rule takes its place, or the file says what is still missing. With --full or --small, or where
    nobody sits at a terminal, a commented starter is written to FILE (default: printed). Never writes over a file.
    """
    if full and small:
        raise InputError([Fault("new", "--full and --small", "one of the two", "--small")])
    if file is not None:
        _check_free(file)
    if not (full or small) and sys.stdin is not None and sys.stdin.isatty() and sys.stdout.isatty():
        _interview(file, units, _reply, click.echo)
        return
    from rigcalc.models.rig.file import starter_text

    text = starter_text(full)
    if file is None:
        click.echo(text, nl=False)
        return
    _write(file, text)
    click.echo(f"Wrote {printable(file)}. Edit it, then: rigcalc size {printable(shlex.quote(file))}")


def _interview(file: str | None, units: Any, reply: Callable[[str], str], say: Callable[[str], None]) -> None:
    """Ask, read each answer at once, hold all of them together, and write the file."""
    from rigcalc.models.rig.questions import blamed, questions, still_missing
    from rigcalc.words.questions import file_text, missing_lines

    say("A rig file by a dozen questions. Enter alone means: don't know. Ctrl+C ends it, and nothing is written.")
    metric = units == "si" if units else _answer_of("American units or metric? (us, si; Enter: us)", _system, reply, say)
    units = "si" if metric else "us"
    answers: dict[str, Any] = {}
    faults: tuple[Fault, ...] = ()
    for again in (False, True):  # once more what doesn't go together, and no third time
        _ask(blamed(faults, answers) if again else questions(), answers, units, reply, say)
        faults = () if still_missing(answers) else _faults_together(answers)
        if not faults:
            break
        say("\nThese answers don't go together:")
        for fault in faults:
            say(f"  {_spelt(str(fault), units)}")
    name = file or _free_name()
    _write(name, file_text(answers, units))
    if missing := missing_lines(answers, units):
        say(f"\nWrote {printable(name)}. Still missing:")
        for line in missing:
            say(f"  {line}")
        say(f"Put it in, then: rigcalc check {printable(shlex.quote(name))}")
        return
    if faults:
        say(f"\nWrote {printable(name)}. Mend it in the file, then: rigcalc check {printable(shlex.quote(name))}")
        return
    say(f"\nWrote {printable(name)}. Now: rigcalc size {printable(shlex.quote(name))}")


def _ask(waiting: Any, answers: dict[str, Any], units: Any, reply: Callable[[str], str], say: Callable[[str], None]) -> None:
    from rigcalc.models.rig.questions import asked_of, read_answer
    from rigcalc.words.questions import choice_lines, question_text

    for question in waiting:
        if not asked_of(question, answers):
            continue
        say("")
        for line in choice_lines(question, units):
            say(f"  {line}")

        def read(text: str, question: Any = question) -> Any:
            return read_answer(question, text, units == "si")

        answers[question.name] = _answer_of(question_text(question, units), read, reply, lambda text: say(_spelt(text, units)))


def _answer_of(text: str, read: Callable[[str], Any], reply: Callable[[str], str], say: Callable[[str], None]) -> Any:
    """Ask until the answer can be read, and say each time what to type."""
    while True:
        try:
            return read(reply(text))
        except InputError as error:
            for fault in error.faults:
                say(f"  {fault}")


def _system(text: str) -> bool:
    low = text.strip().lower()
    if low not in ("", "us", "si", "american", "metric"):
        raise InputError([Fault("units", shown(text), "us (American) or si (metric)", "si")])
    return low in ("si", "metric")


def _faults_together(answers: dict[str, Any]) -> tuple[Fault, ...]:
    from rigcalc.models.rig.file import rig_from
    from rigcalc.models.rig.questions import data_of

    try:
        rig_from(data_of(answers))
    except InputError as error:
        return tuple(error.faults)
    return ()


def _spelt(text: str, units: Any) -> str:
    from rigcalc.words.spelling import spelt

    return str(spelt(text, units))


def _reply(text: str) -> str:
    return str(click.prompt(text, default="", show_default=False, prompt_suffix=" "))


def _free_name() -> str:
    """Give a name for the file that nothing in this folder has."""
    names = [f"{_NAME}.toml", *(f"{_NAME}_{place}.toml" for place in range(2, _TRIES))]
    for name in names:
        if not Path(name).exists():
            return name
    raise InputError([Fault("FILE", f"{_TRIES} rig files already", "a name for this one", "rigcalc new another.toml")])


def _check_free(file: str) -> None:
    """Refuse a name that can't be written before anything is asked."""
    try:
        there = Path(file).is_symlink() or Path(file).exists()
        folder = Path(file).parent.is_dir() and not Path(file).is_dir()
    except (OSError, ValueError):
        return  # said when it is written
    if there and folder:
        raise _taken(file)


def _taken(file: str) -> InputError:
    return InputError([Fault("FILE", shown(file), "a file that isn't there yet", "another name")])


def _write(file: str, text: str) -> None:
    try:
        write_beside(Path(file), text.encode(), over=False)
    except FileExistsError:
        raise _taken(file) from None
    except (OSError, ValueError) as error:  # a name that the system can't have is a ValueError
        why = getattr(error, "strerror", None) or "not a name of a file"
        raise InputError([Fault("FILE", shown(file), f"a place that can be written to ({why})", "another name")]) from None


@click.command()
@click.argument("rig")
def check(rig: str) -> None:
    """Check the rig file RIG and list every fault in it."""
    from rigcalc.models.rig.file import load_rig

    loaded = load_rig(rig)
    from rigcalc.words.tools import counted

    click.echo(f"{printable(rig)}: in order. {counted(loaded)}, {loaded.work.depth} deep at {loaded.work.speed}.")
