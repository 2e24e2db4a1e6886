"""Tells our own wordings from a farmer's text. In: a text, all texts. Out: whether it begins, alone
or behind a signer, like one that we send. Pure. Called by turn.choose: two services that answer
each other are a real fault.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from bot.handbook.shape_texts import Texts

HEAD = 20  # letters by which a wording is known; nobody types so many of them by chance
_SIGNED = re.compile(r"^[A-Za-z0-9 ]{1,11}: ")


def is_ours(text: str, texts: Texts) -> bool:
    """Whether a text is one of ours, or begins with one."""
    heads = _HEADS.of(texts)
    return text[:HEAD] in heads or _SIGNED.sub("", text)[:HEAD] in heads


class _Heads:
    """The beginnings of all wordings, made once for the texts last asked about."""

    def __init__(self) -> None:
        self._of: Texts | None = None
        self._heads: frozenset[str] = frozenset()

    def of(self, texts: Texts) -> frozenset[str]:
        if self._of is not texts:
            self._heads = frozenset(_heads(texts))
            self._of = texts
        return self._heads


_HEADS = _Heads()


def _heads(texts: Texts) -> Iterator[str]:
    """The first letters of each wording that stand before its first value."""
    for tongue in texts.tongues.values():
        for wording in tongue.wordings.values():
            for form in (wording,) if isinstance(wording, str) else wording.values():
                head = form.partition("{")[0]
                if len(head) >= HEAD:
                    yield head[:HEAD]
