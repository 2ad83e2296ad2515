"""The setup sheet: a page for the cab and the rest overleaf, as PDF or HTML.

`sheet_pdf(words, paper=…, who=…)` gives bytes, `sheet_html(...)` text, `sheet_data(...)` what both of them show; `words` is an
answer in words, and `answered(rig, units)` gives it for a rig.
"""

from rigcalc.views.sheet.data import Sheet, answered, sheet_data
from rigcalc.views.sheet.html_page import sheet_html
from rigcalc.views.sheet.pdf import PAPERS, sheet_pdf

__all__ = ["PAPERS", "Sheet", "answered", "sheet_data", "sheet_html", "sheet_pdf"]
