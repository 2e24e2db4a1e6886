"""Reads a printed page as a browser would: its text, what it would fetch, whether tags close."""

from __future__ import annotations

from html.parser import HTMLParser

VOID = ("meta", "circle", "rect", "line", "path", "polyline", "polygon")
FETCHING = ("script", "link", "img", "iframe", "image", "use")


class Reading(HTMLParser):
    """text: what is read, without styles. fetched: addresses and tags that fetch."""

    def __init__(self) -> None:
        super().__init__()
        self.fetched: list[str] = []
        self.open: list[str] = []
        self.text = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.fetched += [str(value) for name, value in attrs if name in ("src", "href")]
        self.fetched += [tag] if tag in FETCHING else []
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if tag not in VOID:
            assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        if "style" not in self.open:
            self.text += data + "\n"


def read(page: str) -> Reading:
    """The page read to its end; every tag is closed where it should be."""
    reading = Reading()
    reading.feed(page)
    assert reading.open == []
    return reading
