"""The sheet as one HTML page that stands alone: no script, no outside link, made to be printed on one page."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path

from rigcalc.models import Answer
from rigcalc.models.ballast.answer import BallastAnswer
from rigcalc.views.sheet.ballast import BallastPart
from rigcalc.views.sheet.data import LimitRow, Setting, Sheet, sheet_data
from rigcalc.views.sheet.pdf import PAPERS, check_paper
from rigcalc.views.sheet.picture import chance_svg
from rigcalc.widgets.html import esc

_CSS = Path(__file__).with_name("page.css")
# Size of print, in points, at which the page stays one page: a straight line through sizes measured in a browser for short
# and long sheets on both papers, less four percent. A sheet without a setting has room for so many letters more.
_SIZE, _BY_LETTER, _ROOM_WITHOUT_SETTING = 10.2, 0.00063, 2900
_SMALLEST, _LARGEST = 6.0, 9.5
_POLICY = "default-src 'none'; style-src 'unsafe-inline'"


def sheet_html(answer: Answer, *, paper: str = "a4", ballast: BallastAnswer | None = None, **about: str | None) -> str:
    """Give the setup sheet of an answer as an HTML page; the same input gives the same text.

    paper: "a4" or "letter". ballast: the answer on ballast for the same rig, for a part on its plan. about: who, where, when,
    gear, comment, as text; all optional. Raises InputError.
    """
    check_paper(paper)
    s = sheet_data(answer, ballast=ballast, **about)
    sheet_size = {"a4": "A4", "us-letter": "letter"}[PAPERS[paper]]
    css = (
        f"{_CSS.read_text(encoding='utf-8')}@page{{size:{sheet_size};margin:9mm 11mm}}\n"
        f"@media print{{html{{font-size:{_size(s)}pt}}body{{max-width:none;padding:0;gap:.7em}}}}\n"
    )
    parts = [_head(s), f"<p><b>Note:</b> {esc(s.comment)}</p>" if s.comment else "", _verdict(s), *_middle(s)]
    parts.append(_ballast(s.ballast) if s.ballast else "")
    parts += [_limits(s, chance_svg(answer)), _list("Bear in mind", s.notes), _list("Take care", s.cautions, "columns")]
    parts.append(f"<footer><b>Sources.</b> {esc(s.sources)} <b>{esc(s.version)}</b></footer>")
    body = "\n".join(part for part in parts if part)
    title = esc(" · ".join(part for part in (s.title, s.farm, s.where) if part))
    return (
        f'<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">\n'
        f'<meta name="viewport" content="width=device-width, initial-scale=1">\n<title>{title}</title>\n'
        f"<style>\n{css}</style>\n</head>\n<body>\n{body}\n</body>\n</html>\n"
    )


def _size(s: Sheet) -> float:
    letters = sum(map(len, (*s.cautions, *s.notes, *s.ways, s.sources, s.comment, s.comment, s.sure, s.season, s.sentence)))
    letters += sum(map(len, _ballast_texts(s.ballast))) * 2 + 400 if s.ballast else 0
    letters -= _ROOM_WITHOUT_SETTING if s.verdict == "no" else 0
    return round(min(max(_SIZE - _BY_LETTER * letters, _SMALLEST), _LARGEST), 1)


def _head(s: Sheet) -> str:
    farm = f" <small>· {esc(s.farm)}</small>" if s.farm else ""
    rig = "; ".join(part for part in (s.rig, s.ground) if part)
    about = "".join(
        f"<dt>{name}</dt><dd>{esc(text)}</dd>" for name, text in (("Who", s.who), ("Where", s.where), ("When", s.when))
    )
    title = f'<h1>{esc(s.title)}{farm}</h1><p class="small">{esc(rig)}</p>'
    return f'<header><div>{title}</div><dl class="about">{about}</dl></header>'


def _verdict(s: Sheet) -> str:
    return f'<p class="verdict is-{s.verdict}"><b>{esc(s.word)}</b><span>{esc(s.sentence)}</span></p>'


def _middle(s: Sheet) -> list[str]:
    """Give what to set, what the screen shows and what gives out first; or, where there is no setting, what would work."""
    if s.verdict == "no":
        ways = "".join(f"<li>{esc(way)}</li>" for way in s.ways)
        return [f'<section class="ways"><h2>No setting is given. What would work:</h2><ul>{ways}</ul></section>']
    screen = "".join(
        f"<li>{esc(item.name)}{_large(item.value)}<span class='small'>{esc(item.about)}</span><br>"
        f"under <strong>{esc(item.low)}</strong><br>or over <strong>{esc(item.high)}</strong></li>"
        for item in s.readings
    )
    return [
        f"<section><h2>{esc(s.settings_title)}</h2>"
        f"{_settings(s.settings[:2], ' is-large')}{_settings(s.settings[2:])}</section>",
        f'<section><h2>The screen should show</h2><ul class="cells">{screen}</ul>'
        "<p><b>Outside that: stop and look.</b> Depth, points, tyres, weight, a wet or a hard spot.</p></section>",
        f'<p class="first">{esc(s.first_title)} <b>{esc(s.first)}</b></p>',
    ]


def _ballast_texts(part: BallastPart) -> list[str]:
    return [text for text in (part.sentence, *part.steps, part.masses, *part.pressures, part.slip) if text]


def _ballast(part: BallastPart) -> str:
    steps = "".join(f"<li>{esc(step)}</li>" for step in part.steps)
    said = f"<p>{esc(part.sentence)}</p>" if part.sentence else ""
    then = "".join(f"<p>{esc(text)}</p>" for text in (part.masses, *part.pressures, part.slip) if text)
    return (
        f'<section class="ballast"><h2>{esc(part.title)}</h2><div class="two"><div>{said}<ol>{steps}</ol></div>'
        f"<div>{then}</div></div></section>"
    )


def _settings(items: Sequence[Setting], more: str = "") -> str:
    cells = "".join(f"<li>{esc(item.name)}{_large(item.value)}</li>" for item in items)
    return f'<ul class="cells is-set{more}">{cells}</ul>'


def _large(value: str) -> str:
    number, _, unit = value.partition(" ")
    return f"<b>{esc(number)}{f' <small>{esc(unit)}</small>' if unit else ''}</b>"


def _limits(s: Sheet, picture: str) -> str:
    rows = "".join(_limit(row) for row in s.limits)
    unknown = f'<p class="small">Not known: {esc(s.unknown)}.</p>' if s.unknown else ""
    season = f"<h2>Season</h2><p>{esc(s.season)}</p>" if s.season else ""
    svg = picture.replace("<svg ", '<svg role="img" aria-label="Chance against depth" ', 1)
    legend = "Fields in 100, against depth. Thick: every limit kept. Dashed: grip and engine are enough."
    return (
        f'<div class="two is-limits"><section><h2>Limits, the fullest first</h2><table><tbody>{rows}</tbody></table>{unknown}'
        f'</section><section><h2>How sure</h2>{svg}<div class="small"><p>{legend}</p><p>{esc(s.sure)}</p>{season}</div>'
        "</section></div>"
    )


def _limit(row: LimitRow) -> str:
    kind = "is-first" if row.first else "is-near" if row.state != "holds" else ""
    title = row.title[:1].upper() + row.title[1:]
    return (
        f'<tr class="{kind}"><th scope="row">{esc(title)}: {esc(row.text)}</th>'
        f'<td><span class="bar" aria-hidden="true"><i style="width:{80 * row.share:.1f}%"></i></span></td>'
        f'<td class="n">{esc(row.used)}</td><td>{esc(row.state)}</td></tr>'
    )


def _list(title: str, lines: Iterable[str], kind: str = "") -> str:
    items = "".join(f"<li>{esc(line)}</li>" for line in lines)
    return f'<section class="small"><h2>{title}</h2><ul class="{kind}">{items}</ul></section>' if items else ""
