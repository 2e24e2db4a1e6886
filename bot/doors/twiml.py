"""The answer a gateway reads: texts come in, an XML document goes out (pure). Called by
doors/sms and doors/voice."""

from __future__ import annotations

import re
from xml.sax.saxutils import escape

CONTENT_TYPE = "text/xml; charset=utf-8"

_HEAD = '<?xml version="1.0" encoding="UTF-8"?>'
REJECTED = f"{_HEAD}<Response><Reject/></Response>"  # a call that is not taken
# Not allowed in XML 1.0 (section 2.2), or a control that no phone shows; the line feed stays.
_FORBIDDEN = re.compile("[\x00-\x09\x0b-\x1f\x7f-\x9f\ud800-\udfff\ufdd0-\ufdef\ufffe\uffff]")


def answer(*texts: str) -> str:
    """One message for each text that shows anything, or an empty response."""
    shown = (_FORBIDDEN.sub("", text).strip() for text in texts)
    inside = "".join(f"<Message>{escape(text)}</Message>" for text in shown if text)
    return f"{_HEAD}<Response>{inside}</Response>" if inside else f"{_HEAD}<Response/>"
