"""Writes a text so that every phone shows it and every letter costs one septet. Any text comes in,
plain ASCII goes out. Called when content is proofread and again when a text is rendered: names and
places come from people, who write them as they like.

What we know is mapped letter by letter, so that "naïve" stays readable and "32°C" becomes "32 C";
what we don't know is spelled by the anyascii library; pictures and controls are left out.
"""

from __future__ import annotations

import re
import unicodedata

from anyascii import anyascii

_LETTERS = {
    "a": "àáâãäåāă",
    "c": "çćč",
    "e": "èéêëēėę",
    "i": "ìíîïīĩ",
    "n": "ñńň",
    "o": "òóôõöøō",
    "u": "ùúûüūũ",
    "y": "ýÿ",
    "s": "śš",
    "z": "źżž",
    "oe": "œ",
    "ae": "æ",
    "ss": "ß",
    "ng'": "ŋ",
}
_SIGNS = {
    "'": "‘’‚‛′´ʼʻ`",
    '"': "“”„‟″«»",
    "-": "‐‑‒–—―−~",
    " ": "\t\u00a0\u202f\u205f\u3000" + "".join(map(chr, range(0x2000, 0x200B))),
    "\n": "\u2028\u2029\x85",
    "...": "…",
    "x": "×",
    "/": "÷⁄|\\",
    "(": "[{",
    ")": "]}",
    "": "¡¿^",
    "- ": "•·",
    " deg": "°º˚",
    " C": "℃",
    " F": "℉",
    "EUR": "€",
    "No": "№",
    "2": "²",
    "3": "³",
}
_SINGLE = {ord(letter): plain for plain, letters in _LETTERS.items() for letter in letters}
_SINGLE |= {
    ord(letter.upper()): plain.upper()
    for plain, letters in _LETTERS.items()
    for letter in letters
    if len(letter.upper()) == 1
}
_SINGLE |= {ord(letter): plain for plain, letters in _SIGNS.items() for letter in letters}

_BEFORE = (
    (re.compile(r"\r\n?"), "\n"),
    (re.compile(r"[ \u00a0\u202f]?[°º˚][ \u00a0\u202f]?(?=[CF]\b)"), " "),
    (re.compile(r"\b([nN])[°º](?=\W|\d|$)"), r"\1o"),
    (re.compile(r"«[ \u00a0\u202f]?"), '"'),
    (re.compile(r"[ \u00a0\u202f]?»"), '"'),
    (re.compile(r"(?<=\d)(?=[½¼¾])"), " "),
)
_SILENT = {"So", "Sk", "Cs", "Co", "Cn", "Cf", "Cc", "Mn", "Me"}


def plain(text: str) -> str:
    """`text` in printable ASCII and line feeds, without the letters that count twice; the same for
    a text that already is."""
    if text.isascii() and text.isprintable() and text.translate(_SINGLE) == text:
        return text
    tidy = unicodedata.normalize("NFC", text)
    for pattern, instead in _BEFORE:
        tidy = pattern.sub(instead, tidy)
    return "".join(_letter(letter) for letter in tidy.translate(_SINGLE))


def _letter(letter: str) -> str:
    if letter == "\n" or (letter.isascii() and letter.isprintable()):
        return letter
    if letter.isdecimal():
        return str(unicodedata.decimal(letter))
    if unicodedata.category(letter) in _SILENT:
        return ""
    spelled = anyascii(letter).translate(_SINGLE)
    return "".join(one for one in spelled if one.isascii() and one.isprintable())
