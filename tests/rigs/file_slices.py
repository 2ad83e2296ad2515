"""A file as a browser sends it: slice by slice."""

from rigcalc.widgets.sliced import SLICE


def slices(data, name="a.csv", size=None):
    """The messages that a browser sends of a file."""
    parts = max(-(-len(data) // SLICE), 1)
    return [
        {"name": name, "size": len(data) if size is None else size, "at": 0, "part": part, "parts": parts,
         "bytes": data[part * SLICE : (part + 1) * SLICE]}
        for part in range(parts)
    ]  # fmt: skip
