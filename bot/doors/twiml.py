"""The answer a gateway reads: a text or None comes in, an XML document goes out (pure). Called by
doors/sms."""

from __future__ import annotations

import re
from xml.sax.saxutils import escape

CONTENT_TYPE = "text/xml; charset=utf-8"

_HEAD = '<?xml version="1.0" encoding="UTF-8"?>'
# Not allowed in XML 1.0 (section 2.2), or a control that no phone shows; the line feed stays.
_FORBIDDEN = re.compile("[\x00-\x09\x0b-\x1f\x7f-\x9f\ud800-\udfff\ufdd0-\ufdef\ufffe\uffff]")


def answer(text: str | None) -> str:
    """One message holding `text`, or an empty response where there is nothing to say."""
    shown = _FORBIDDEN.sub("", text or "").strip()
    if not shown:
        return f"{_HEAD}<Response/>"
    return f"{_HEAD}<Response><Message>{escape(shown)}</Message></Response>"
