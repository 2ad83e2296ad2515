"""`rigcalc problems` and `rigcalc mark`: sheets for a class, and what came back."""

from __future__ import annotations

import itertools
import sys
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from rigcalc.cli.writing import file_faults, write_file
from rigcalc.core.errors import Fault, InputError, printable, shown

if TYPE_CHECKING:
    from rigcalc.models.classroom.problem_set import ProblemSet

_FORMS = {"html": (".html",), "ipynb": (".ipynb",), "pdf": (".pdf",), "both": (".html", ".ipynb")}
_FORMS["all"] = (*_FORMS["both"], ".pdf")
_EXAMPLE = "rigcalc problems --class class.csv --to sheets"


@click.command()
@click.argument("kinds", nargs=-1)
@click.option("--class", "class_file", help="CSV file with a student in each line, under a heading that says student.")
@click.option("--to", "folder", help="Folder to write the sheets to; made if it isn't there.")
@click.option("--lesson", help="Only the kinds of one lesson: draft, power, slip, weight, capacity or soil.")
@click.option("--count", type=int, help="Problems for each student (default: one of each kind).")
@click.option("--seed", default=1, show_default=True, help="Another number gives other problems.")
@click.option("--units", type=click.Choice(["us", "si"]), default="us", show_default=True, help="American or metric numbers.")
@click.option(
    "--as",
    "form",
    type=click.Choice(list(_FORMS)),
    default="both",
    show_default=True,
    help="Sheets to print as a page (html) or as PDF, notebooks to return (ipynb), html and ipynb, or all three.",
)
@click.option("--answers", is_flag=True, help="With the right answers and the working.")
@click.option("--student", default="a student", help="Whose problems are shown where no class is given.")
@click.option("--force", is_flag=True, help="Write over files that are there.")
def problems(
    kinds: tuple[str, ...], class_file: str | None, folder: str | None, lesson: str | None, count: int | None, seed: int,
    units: Any, form: str, answers: bool, student: str, force: bool,
) -> None:  # fmt: skip
    """List KINDS of problems, show one of each, or write sheets for a class.

    Without anything, the kinds are listed. With KINDS, a problem of each is shown. With --class and --to, every student of the
    list gets a sheet with numbers of their own, to print and as a notebook to return; `rigcalc mark` marks what comes back.
    """
    from rigcalc.views.terminal.classroom import print_kinds, print_problems
    from rigcalc.views.terminal.parts import new_console

    chosen, faults = _chosen(kinds, lesson, count)
    if (class_file is None) != (folder is None):
        faults.append(Fault("--class and --to", "one of them", "both, to write sheets", _EXAMPLE))
    if faults:
        raise InputError(faults)
    if class_file is not None and folder is not None:
        from rigcalc.models.classroom.class_list import load_class
        from rigcalc.models.classroom.problem_set import ProblemSet

        given_out = ProblemSet(load_class(class_file), chosen, seed, units)
        _write(given_out, Path(folder), _FORMS[form], answers, force)
    elif kinds or lesson is not None or count is not None or answers:
        from rigcalc.models.classroom.problem_set import ProblemSet, assigned

        one = assigned(ProblemSet((student,), chosen, seed, units))
        print_problems(one[student], answers, new_console())
    else:
        from rigcalc.models.classroom import kinds as all_kinds

        print_kinds(all_kinds().values(), units, new_console())


def _chosen(names: Sequence[str], lesson: str | None, count: int | None) -> tuple[tuple[str, ...], list[Fault]]:
    """Give the kinds of the problems of one student, in order, and what is wrong with what was typed."""
    from rigcalc.models.classroom import kinds
    from rigcalc.models.classroom.problem_set import MOST_PROBLEMS

    there_are = kinds()
    faults = [Fault("KINDS", shown(name), "a kind of problem", ", ".join(there_are)) for name in names if name not in there_are]
    lessons = dict.fromkeys(kind.lesson for kind in there_are.values())
    if lesson is not None and lesson not in lessons:
        faults.append(Fault("--lesson", shown(lesson), "a lesson", ", ".join(lessons)))
    if names and lesson is not None:
        faults.append(Fault("--lesson", shown(lesson), "KINDS or --lesson, not both", f"rigcalc problems {names[0]}"))
    if count is not None and not 1 <= count <= MOST_PROBLEMS:
        faults.append(Fault("--count", str(count), f"1 to {MOST_PROBLEMS}", "--count 10"))
    if faults:
        return (), faults
    chosen = names or [name for name, kind in there_are.items() if lesson in (None, kind.lesson)]
    return tuple(itertools.islice(itertools.cycle(chosen), count or len(chosen))), []


def _write(given_out: ProblemSet, folder: Path, forms: Sequence[str], answers: bool, force: bool) -> None:
    """Write every student's sheets and the file that marking needs. Nothing is written where a file is in the way."""
    from rigcalc.models.classroom.problem_set import SET_FILE, assigned, file_stem, set_text
    from rigcalc.views.classroom.pdf import sheet_pdf
    from rigcalc.views.classroom.sheets import sheet_html, sheet_notebook

    if ".pdf" in forms:
        from rigcalc.views.sheet.pdf import load_typst

        load_typst()  # refused before anything is written
    made_by: Mapping[str, Callable[..., str | bytes]] = {".html": sheet_html, ".ipynb": sheet_notebook, ".pdf": sheet_pdf}
    try:
        folder.mkdir(exist_ok=True)
    except OSError as error:
        got = f"{shown(str(folder))} ({error.strerror})"
        raise InputError([Fault("--to", got, "a folder, or a new one in a folder that is there", "--to sheets")]) from None
    keep = folder / SET_FILE
    text = set_text(given_out)
    end = "_answers" if answers else ""
    names = {
        (student, form): folder / f"{file_stem(number, student)}{end}{form}"
        for number, student in enumerate(given_out.students, 1)
        for form in forms
    }
    in_the_way = [fault for file in names.values() for fault in file_faults("--to", file, _FORMS["all"], force, "sheets")]
    if not _holds(keep, text):  # the same set, say for its answers, may stand
        in_the_way += file_faults("--to", keep, (".toml",), force, "sheets")
    if in_the_way:
        raise InputError(in_the_way)
    write_file("--to", keep, text.encode(), True)
    given = assigned(given_out)
    with click.progressbar(length=len(names), label="Sheets", file=sys.stderr) as bar:
        for (student, form), file in names.items():
            made = made_by[form](student, given[student], answers)
            write_file("--to", file, made.encode() if isinstance(made, str) else made, force)
            bar.update(1)
    click.echo(f"Wrote {len(names)} sheets for {len(given)} students to {printable(click.format_filename(folder))}.")
    click.echo(f"Keep {SET_FILE}: rigcalc mark needs it.")


def _holds(file: Path, text: str) -> bool:
    try:
        return file.is_file() and file.read_text(encoding="utf-8") == text
    except (OSError, ValueError):
        return False


@click.command("mark")
@click.argument("folder")
@click.option("--set", "set_file", required=True, help="The problem-set.toml that rigcalc problems wrote beside the sheets.")
@click.option("--csv", "csv_file", help="Write a row for each student and problem to this file.")
@click.option("--totals", "totals_file", help="Write a row for each student to this file.")
@click.option("--force", is_flag=True, help="Write over files that are there.")
def mark_command(folder: str, set_file: str, csv_file: str | None, totals_file: str | None, force: bool) -> None:
    """Mark the notebooks in FOLDER. They are read as text: nothing in them is run, and links are not followed.

    What a student typed is read as a number with a unit of any kind that fits. What isn't right is said without giving the
    answer away: the table may go back to the students.
    """
    from rigcalc.models.classroom.class_marks import class_marks
    from rigcalc.models.classroom.problem_set import assigned, load_set
    from rigcalc.models.classroom.returned import read_returned
    from rigcalc.views.spreadsheet.classroom import marks_csv, totals_csv
    from rigcalc.views.terminal.classroom import print_totals
    from rigcalc.views.terminal.parts import new_console

    files = {option: Path(name) for option, name in (("--csv", csv_file), ("--totals", totals_file)) if name is not None}
    faults = [fault for option, file in files.items() for fault in file_faults(option, file, (".csv",), force, "marks.csv")]
    try:
        given = assigned(load_set(set_file))
    except InputError as error:
        raise InputError([*faults, *error.faults]) from None
    if faults:
        raise InputError(faults)
    marks = list(class_marks(given, read_returned(folder, given)))
    for option, file in files.items():
        write_file(option, file, (marks_csv if option == "--csv" else totals_csv)(marks), force)
        click.echo(f"Wrote {printable(click.format_filename(file))}", err=True)
    print_totals(marks, new_console())
