"""HTML in small pieces: every text is escaped, every page stands alone and prints on A4. Pure.

In: words and pieces. Out: `Html`, text that is safe to place as it is. Used by the pages beside it.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from html import escape

STYLE = """
@page { size: A4; margin: 14mm }
* { box-sizing: border-box }
body { font: 15px/1.45 system-ui, sans-serif; color: #1c241f; background: #fff;
  max-width: 60rem; margin: 0 auto; padding: 1rem }
h1 { font-size: 1.6rem; margin: 0 0 .2rem } h2 { font-size: 1.1rem; margin: 1.6rem 0 .4rem;
  border-bottom: 2px solid #2f5d43; padding-bottom: .15rem; break-after: avoid }
p { margin: .3rem 0 } .quiet { color: #55615a; font-size: .85rem }
.wide { overflow-x: auto }
table { border-collapse: collapse; width: 100%; font-size: .9rem; break-inside: auto }
th, td { text-align: left; padding: .3rem .5rem; border-bottom: 1px solid #cfd8d2;
  vertical-align: top }
th { background: #eef3ef } td.n, th.n { text-align: right }
tr { break-inside: avoid }
.tiles { display: flex; flex-wrap: wrap; gap: .6rem; margin: .8rem 0 }
.tile { border: 1px solid #cfd8d2; border-radius: .4rem; padding: .5rem .7rem; min-width: 8.5rem;
  flex: 1 } .tile b { display: block; font-size: 1.35rem }
figure { margin: .8rem 0 1.2rem; break-inside: avoid } figcaption { font-weight: 600 }
svg { width: 100%; height: auto; display: block }
ol, ul { margin: .3rem 0; padding-left: 1.3rem } li { margin: .2rem 0 }
.box { display: inline-block; width: .9em; height: .9em; border: 1.5px solid #1c241f }
.care { border-left: 4px solid #b3471d; padding: .3rem .7rem; background: #fbf1ec }
@media print { svg { max-height: 62mm } .wide { overflow: visible }
  body { padding: 0; font-size: 11.5px; max-width: none }
  th, td { padding: .2rem .35rem } }
"""


class Html(str):
    """Text that is HTML already."""

    __slots__ = ()


Piece = str | int | float | None


def safe(piece: Piece) -> str:
    """A piece as HTML: escaped unless it is HTML already; nothing for None."""
    if piece is None:
        return ""
    return piece if isinstance(piece, Html) else escape(str(piece))


def tag(name: str, *pieces: Piece, cls: str = "") -> Html:
    """<name class="cls">pieces</name>"""
    marked = f' class="{escape(cls)}"' if cls else ""
    return Html(f"<{name}{marked}>{''.join(safe(one) for one in pieces)}</{name}>")


def joined(pieces: Iterable[Piece]) -> Html:
    """Pieces one after the other, a line each."""
    return Html("\n".join(safe(one) for one in pieces if one is not None))


def table(heads: Sequence[str], rows: Iterable[Sequence[Piece]], *, figures_from: int = 1) -> Html:
    """A table; the columns from `figures_from` on hold figures and stand right."""

    def line(kind: str, cells: Sequence[Piece]) -> Html:
        marked = ("n" if at >= figures_from else "" for at in range(len(cells)))
        return tag("tr", *(tag(kind, one, cls=cls) for one, cls in zip(cells, marked, strict=True)))

    head = tag("thead", line("th", heads))
    body = tag("tbody", *(line("td", row) for row in rows))
    return tag("div", tag("table", head, body), cls="wide")


def facts(rows: Iterable[Sequence[Piece]]) -> Html:
    """A table of two columns without a head: what, and its value."""
    lines = (tag("tr", tag("th", one), tag("td", other)) for one, other in rows)
    return tag("table", tag("tbody", *lines))


def tiles(figures: Iterable[tuple[str, Piece]]) -> Html:
    """Figures to see at a glance, each under its name."""
    made = (tag("div", tag("span", name), tag("b", value), cls="tile") for name, value in figures)
    return tag("div", *made, cls="tiles")


def listed(lines: Iterable[Piece], *, ordered: bool = False) -> Html:
    """A list of lines."""
    return tag("ol" if ordered else "ul", *(tag("li", one) for one in lines))


def page(title: str, language: str, *body: Piece) -> Html:
    """A whole page: one file, no script, nothing fetched."""
    return Html(
        f'<!doctype html>\n<html lang="{escape(language)}">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{escape(title)}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n"
        f"{joined(body)}\n</body>\n</html>\n"
    )
