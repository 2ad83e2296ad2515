"""`uv run python -m docs.site OUT`: build the docs site into the folder OUT."""

from __future__ import annotations

import sys
import tempfile
from importlib.util import find_spec
from pathlib import Path

from docs.site.gather import ROOT, gather


def main(arguments: list[str]) -> int:
    """Build the site. Gives 0, 1 where sphinx warned of anything (a dead link, say), 2 for bad input."""
    if len(arguments) != 1 or arguments[0].startswith("-"):
        print(f"got {len(arguments)} arguments; expected one folder. Type: uv run python -m docs.site ../site", file=sys.stderr)
        return 2
    out = Path(arguments[0]).resolve()
    if out.exists() and not (out.is_dir() and ((out / ".buildinfo").is_file() or not any(out.iterdir()))):
        print(f"got '{arguments[0]}'; expected a new or empty folder, or one that holds the site already", file=sys.stderr)
        return 2
    if find_spec("sphinx") is None:
        print("sphinx is missing. Type: uv sync --group docs", file=sys.stderr)
        return 2
    with tempfile.TemporaryDirectory() as room:
        gather(Path(room))
        return build(Path(room), out)


def build(pages: Path, out: Path) -> int:
    """Build gathered pages into `out`. A warning of sphinx, such as a dead reference, is an error."""
    from sphinx.cmd.build import build_main

    with tempfile.TemporaryDirectory() as kept:
        how = ["-c", str(ROOT / "docs" / "site"), "-d", kept, "-E", "-j", "2", "-q", "-W", "--keep-going", "-b", "html"]
        return build_main([*how, str(pages), str(out)])


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
