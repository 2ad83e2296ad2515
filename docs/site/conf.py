"""What sphinx is told. Read by sphinx alone, from the folder that `docs.site` gathers the pages into."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))  # sphinx runs this file by its path

project = "rigcalc"
extensions = ["myst_parser", "docs.site.mended"]
source_suffix = {".md": "markdown"}
myst_enable_extensions = ["dollarmath", "html_image"]
myst_heading_anchors = 3
html_math_renderer = "mathml"  # docs.site.mended: no script draws the formulas

html_theme = "furo"
html_title = "rigcalc"
html_static_path = ["static"]
html_css_files = ["site.css"]
html_show_sphinx = False
html_show_copyright = False
html_copy_source = False
html_use_index = False
# Summaries would be fetched page by page, which no browser allows to a page that is opened from a disk.
html_show_search_summary = False
pygments_style = "docs.site.mended.InkOnPaper"
pygments_dark_style = "docs.site.mended.PaperOnInk"
_ink, _paper, _line, _soft = "#1b1b18", "#ffffff", "#c9c7bd", "#f5f4ef"
_light = {"color-brand-primary": _ink, "color-brand-content": "#0b4f8a", "color-brand-visited": "#5a3d78",
          "color-foreground-primary": _ink, "color-foreground-secondary": "#4a4943", "color-foreground-muted": "#5a5952",
          "color-background-primary": _paper, "color-background-secondary": _soft, "color-background-border": _line,
          "color-sidebar-link-text--top-level": _ink, "color-sidebar-item-background--current": "#e6e4da",
          "color-inline-code-background": _soft}  # fmt: skip
_dark = {"color-brand-primary": "#f0efe9", "color-brand-content": "#8fc3f5", "color-brand-visited": "#c9aee6",
         "color-foreground-primary": "#f0efe9", "color-foreground-secondary": "#c6c4ba", "color-foreground-muted": "#b5b3a8",
         "color-background-primary": "#171714", "color-background-secondary": "#201f1b", "color-background-border": "#4a4943",
         "color-sidebar-link-text--top-level": "#f0efe9", "color-sidebar-item-background--current": "#35342e",
         "color-inline-code-background": "#26251f"}  # fmt: skip
html_theme_options = {"light_css_variables": _light, "dark_css_variables": _dark}
