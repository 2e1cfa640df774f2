"""A page read back by the standard library's parser into a tree, and refused where its elements do not close."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser

VOID = frozenset({"meta", "br", "wbr"})
"""Elements of these pages that have no end tag: HTML Living Standard, 13.1.2."""


@dataclass(eq=False)
class Element:
    """An element with what is in it."""

    tag: str
    attributes: dict[str, str]
    inside: list[Element | str] = field(default_factory=list)

    def every(self, tag: str = "", cls: str = "") -> Iterator[Element]:
        """All elements below of a tag and a class, in the order of the page."""
        for part in self.inside:
            if isinstance(part, Element):
                if tag in ("", part.tag) and (not cls or cls in part.attributes.get("class", "").split()):
                    yield part
                yield from part.every(tag, cls)

    def one(self, tag: str = "", cls: str = "") -> Element:
        """The only element of a tag and a class."""
        (found,) = self.every(tag, cls)
        return found

    def part(self, name: str) -> Element:
        """The element with an identifier."""
        (found,) = (each for each in self.every() if each.attributes.get("id") == name)
        return found

    @property
    def text(self) -> str:
        """All text below, blanks as they are."""
        return "".join(part if isinstance(part, str) else part.text for part in self.inside)

    def rows(self) -> list[list[str]]:
        """The text of each cell of each row of the bodies of all tables below."""
        return [
            [cell.text for cell in row.inside if isinstance(cell, Element)]
            for body in self.every("tbody")
            for row in body.every("tr")
        ]


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.open = [Element("", {})]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert len(attrs) == len(dict(attrs)), f"an attribute of {tag} is given twice"
        element = Element(tag, {name: value or "" for name, value in attrs})
        self.open[-1].inside.append(element)
        if tag not in VOID:
            self.open.append(element)

    def handle_endtag(self, tag: str) -> None:
        assert tag == self.open.pop().tag, f"{tag} closes what is not open"

    def handle_data(self, data: str) -> None:
        self.open[-1].inside.append(data)

    def handle_comment(self, data: str) -> None:
        raise AssertionError(f"a comment: {data}")

    def handle_pi(self, data: str) -> None:
        raise AssertionError(f"an instruction: {data}")


def tree(page: str) -> Element:
    """The whole page; its parts are below."""
    reader = _Reader()
    reader.feed(page)
    reader.close()
    (root,) = reader.open
    return root


def shape(element: Element) -> list[tuple[str, tuple[str, ...]]]:
    """The elements of a page with the names of their attributes: what a browser makes of it, whatever it says."""
    return [(each.tag, tuple(each.attributes)) for each in element.every()]
