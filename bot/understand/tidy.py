"""Raw text in, plain ASCII tokens out. Pure; called by `read` first of all.

A token is a word, a number or a mark. Accents, curly quotes, other scripts' digits, invisible
characters, O for 0 and l for 1 inside numbers are made plain here, so that nothing later sees them.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable
from typing import Literal, NamedTuple

from anyascii import anyascii

LIMIT = 1600  # characters: the longest text a gateway hands over in one piece
BREAKS = frozenset(".,;?!\n")
_RUN = re.compile(
    r"\d+(?:[.,]\d+)+(?![a-z]*\d)|[a-z]+(?=\d+[.,]\d+(?:kgs?|gm?|c|l)?\b)"
    r"|[a-z0-9]+|[^\sa-z0-9]|\n"
)
_PIECE = re.compile(r"[a-z]+|\d+")
_NOUGHT = re.compile(r"(?<=\d)o+(?=\d|[.,]\d)|(?<=\d[.,])o(?=\d)")  # 3o,5
_DEGREE = re.compile(r"(?<=\d\d)o(?=[cf]\b)")  # 31oC
_DRAGGED = re.compile(r"(.)\1{2,}")
_HYPHEN = re.compile(r"(?<=[a-z])-(?=[a-z])")
_MARKED = {
    "°": " degrees ",
    "º": " degrees ",
    "½": ".5",
    "¼": ".25",
    "¾": ".75",
    "×": "x",
    "👍": " thumbsup ",
    "🙏": " thanks ",
    "€": " euro ",
}


class Token(NamedTuple):
    """text: lower-case ASCII. value: of a number. solid: written without a space to the next."""

    text: str
    kind: Literal["word", "number", "mark"]
    value: float | None = None


def plain(text: str) -> tuple[str, bool]:
    """The text in lower-case ASCII, and whether it was cut at LIMIT characters."""
    cut = len(text) > LIMIT
    text = text[:LIMIT]
    if not text.isascii():
        for odd, even in _MARKED.items():
            text = text.replace(odd, even)
        text = unicodedata.normalize("NFKC", text)
        text = "".join(char for char in text if unicodedata.category(char) not in _INVISIBLE)
        text = anyascii(text)
    text = text.lower().replace("\r", "\n")
    text = text.replace("n't", "nt").replace("ng'", "ng")
    if text.count(" ") >= _NEW_WORDS:
        text = _NEW.sub("", text)
    text = _DEGREE.sub(" ", text)
    text = _NOUGHT.sub(lambda found: "0" * len(found.group()), _HYPHEN.sub(" ", text))
    return text.replace("'", " ").replace("`", " ").replace('"', " ")[: 2 * LIMIT], cut


_UNIT_INSIDE = re.compile(r"(\d{1,3})(kg|kilos?|l)(\d{1,3})")  # 15kg8, 15kilo8: 15.8 kg
_THOUSANDS = re.compile(r"(\d{1,4})k")  # 14k: 14,000
_FIGURE_FIRST = re.compile(r"(\d+)([a-z]+\d+)")  # 9b4: 9 before
_SQUARE = re.compile(r"(\d{1,4})(m2)")  # 12m2
_BEFORE_UNIT = re.compile(r"(\d+)(o+)([a-z]{1,3})")
_SIDES = re.compile(r"(m|ft)(x)(?=\d)")  # 10mx5m
_NOUGHTS_BEHIND = re.compile(r"(?<=\d)o+(?=\d|$)")
_NOUGHT_BEFORE = re.compile(r"(?<![a-z])o(?=\d)")
_ONE_BEFORE = re.compile(r"(?<![a-z])[li](?=\d)")
_ONE_BETWEEN = re.compile(r"(?<=\d)i(?=\d)")
# "they sneeze tonight, not before": that it is new, nothing that is denied.
_NEW = re.compile(
    r"(?<=[a-z]) *[,.]? +(not|pas|sio|siyo) (before|earlier|yesterday|avant|hier|jana|awali)[ .!]*$"
)
_NEW_WORDS = 4  # a shorter text may answer with it
_INVISIBLE = frozenset({"Cf", "Mn", "Me", "Cs", "Co", "Cn"})


def tokens(text: str, known: Callable[[str], bool]) -> list[Token]:
    """The tokens of a plain text. `known` says whether a run like 2moro is a word of its own."""
    found: list[Token] = []
    for match in _RUN.finditer(text):
        run = match.group()
        if run.isalpha():
            found.append(Token(_shortened(run), "word"))
        elif run.isdigit() or (run[0].isdigit() and not run.isalnum()):
            found.extend(_number(run))
        elif run.isalnum():
            found.extend(_mixed(run, known))
        else:
            found.append(Token(run, "mark"))
    return found


def _shortened(word: str) -> str:
    """A word with letters dragged out ("sooooo") has at most two of a kind in a row."""
    if len(word) >= 4 and _DRAGGED.search(word):
        word = _DRAGGED.sub(r"\1\1", word)
    return word[:40]


def _number(run: str) -> list[Token]:
    """One number, or several where the commas of a list stand between: 510,495,530."""
    if len(run) > 24:
        return [Token(run[:24], "word")]
    for sign in ",.":
        groups = run.split(sign)
        if len(groups) > 2:
            return [token for group in groups for token in _number(group)]
    if "," in run and "." in run:
        return [Token(run, "number", float(run.replace(",", "")))]
    if "," in run:
        head, tail = run.split(",")
        if len(tail) == 3 and head != "0" and len(head) <= 3:
            if len(head) == 3:
                return [*_number(head), Token(",", "mark"), *_number(tail)]
            return [Token(run, "number", float(head + tail))]
        if len(tail) > 3:
            return [*_number(head), Token(",", "mark"), *_number(tail)]
        return [Token(run, "number", float(f"{head}.{tail}"))]
    return [Token(run, "number", float(run))]


def _mixed(run: str, known: Callable[[str], bool]) -> list[Token]:
    """A run of letters and digits: a known word (2moro), else split at every change."""
    if known(run):
        return [Token(run, "word")]
    run = _digits_meant(_noughts_before_a_unit(run, known))
    inside = _UNIT_INSIDE.fullmatch(run)
    if inside is not None:
        whole, unit, part = inside.groups()
        return [*_number(f"{whole}.{part}"), Token(unit, "word")]
    behind = _FIGURE_FIRST.fullmatch(run)
    if behind is not None and known(behind.group(2)):
        return [*_number(behind.group(1)), Token(behind.group(2), "word")]
    square = _SQUARE.fullmatch(run)
    if square is not None:
        return [*_number(square.group(1)), Token(square.group(2), "word")]
    thousands = _THOUSANDS.fullmatch(run)
    if thousands is not None:
        return [Token(run, "number", float(thousands.group(1)) * 1000)]
    run = _SIDES.sub(r"\1 \2 ", run)
    found: list[Token] = []
    for piece in _PIECE.findall(run[:60]):
        found.extend(_number(piece) if piece.isdigit() else [Token(_shortened(piece), "word")])
    return found


def _noughts_before_a_unit(run: str, known: Callable[[str], bool]) -> str:
    """ "5okg", "9of": O for 0 between a figure and a known short word."""
    found = _BEFORE_UNIT.fullmatch(run)
    if found is None or not known(found.group(3)):
        return run
    return found.group(1) + "0" * len(found.group(2)) + found.group(3)


def _digits_meant(run: str) -> str:
    """O for 0 next to a digit, l for 1 before a digit."""
    run = _NOUGHTS_BEHIND.sub(lambda found: "0" * len(found.group()), run)
    run = _NOUGHT_BEFORE.sub("0", run)
    run = _ONE_BEFORE.sub("1", run)
    return _ONE_BETWEEN.sub("1", run)
