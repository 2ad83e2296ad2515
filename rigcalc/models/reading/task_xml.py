"""XML of task data, read strictly: elements and attributes alone, no document type, no entities, bounded in every way."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any, NoReturn
from xml.parsers import expat

from rigcalc.core.errors import Fault, InputError, shown

MOST_XML = 16 * 1024 * 1024  # bytes
_MOST_ELEMENTS, _DEEPEST = 200_000, 30
_CHUNK = 1 << 16


@dataclass(eq=False)
class Element:
    """An element: its tag, its attributes, the elements inside it."""

    tag: str
    attributes: dict[str, str]
    inside: list[Element] = field(default_factory=list)

    def all(self, tag: str) -> Iterator[Element]:
        """Give the elements of a tag right inside it, in order."""
        return (each for each in self.inside if each.tag == tag)


def element_of(data: bytes, name: str, root: str) -> Element:
    """Read XML. name: of the file, for faults. root: the tag that it must have. Raises InputError.

    Text between elements is left out, for task data has none.
    """
    parser, stack, count = expat.ParserCreate(), [Element("", {})], 0

    def refused(*_: Any) -> NoReturn:
        raise InputError([Fault(name, "XML with a document type or entities", "task data, which has neither")])

    def starts(tag: str, attributes: dict[str, str]) -> None:
        nonlocal count
        count += 1
        if count > _MOST_ELEMENTS or len(stack) > _DEEPEST:
            raise InputError([Fault(name, "XML of too many elements, or too many inside each other",
                                    "task data of a day or two", f"at most {_MOST_ELEMENTS:,}, {_DEEPEST} deep")])  # fmt: skip
        made = Element(tag, attributes)
        stack[-1].inside.append(made)
        stack.append(made)

    def ends(_tag: str) -> None:
        stack.pop()

    parser.StartElementHandler, parser.EndElementHandler = starts, ends
    parser.StartDoctypeDeclHandler = parser.EntityDeclHandler = refused
    parser.ExternalEntityRefHandler = parser.UnparsedEntityDeclHandler = refused
    try:
        for start in range(0, len(data), _CHUNK):
            parser.Parse(data[start : start + _CHUNK], False)
        parser.Parse(b"", True)
    except (expat.ExpatError, LookupError, ValueError) as error:
        if isinstance(error, InputError):
            raise
        line = getattr(error, "lineno", 0)
        raise InputError([Fault(f"{name}, line {line}" if line else name, "XML that breaks off or isn't well-formed",
                                "the file as the terminal wrote it")]) from None  # fmt: skip
    (found,) = stack[0].inside
    if found.tag != root:
        raise InputError([Fault(name, f"XML of {shown(found.tag)}", f"task data of ISO 11783-10, whose root is {root}")])
    return found
