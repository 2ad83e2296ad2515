"""Flags as somebody types them into a box that says its units: bare numbers get those, everything else stays as it is."""

from __future__ import annotations


def flags_typed(text: str, depth: str, pressure: str) -> str:
    """Give flags with units: `8 12 350` becomes `8 in to 12 in, 350 psi`. depth, pressure: units that stand at the box.

    A line may have its numbers parted by blanks, tabs or slashes, with decimal commas. What has units, what can't be read, and
    a table with headings, stay as they are: `read_probe` says what is wrong with them.
    """
    lines = [line.strip() for line in text.replace("\r", "").split("\n")]
    if any("depth" in line.lower() for line in lines[:1]):
        return text
    return "\n".join(_with_units(line, depth, pressure) for line in lines if line)


def _with_units(line: str, depth: str, pressure: str) -> str:
    words = line.replace("\t", " ").replace("/", " ").split()
    words = [word for word in words if word.lower() != "to"]
    if len(words) == 1 and words[0].lower() in ("-", "no", "none"):
        return "none"
    if len(words) == 2 and _is_number(words[0]) and words[1].lower() in ("-", "deeper", "end"):
        return f"{_plain(words[0])} {depth} to deeper"
    if len(words) not in (2, 3) or not all(map(_is_number, words)):
        return line
    top, bottom, *most = map(_plain, words)
    return f"{top} {depth} to {bottom} {depth}" + "".join(f", {each} {pressure}" for each in most)


def _plain(word: str) -> str:
    return word.strip(",;").replace(",", ".")


def _is_number(word: str) -> bool:
    whole, _, part = _plain(word).partition(".")
    return word.isascii() and whole.isdecimal() and (not part or part.isdecimal())
