"""The errors of our own. Every folder may raise them; doors and the command line turn them into
kind answers."""

from __future__ import annotations


class BroodpostError(Exception):
    """The base of all errors that we raise on purpose."""


class OutsideRange(BroodpostError):
    """A husbandry figure was asked for outside the range in which it holds.

    `why` names the argument and the valid range in words a farmer understands.
    """

    def __init__(self, name: str, valid: str) -> None:
        super().__init__(f"{name}: valid {valid}")
        self.name = name
        self.valid = valid


class HandbookError(BroodpostError):
    """A content file is wrong. Start is refused; the file, the key and the reason are named."""

    def __init__(self, file: str, key: str, why: str) -> None:
        super().__init__(f"{file}: {key}: {why}")
        self.file = file
        self.key = key
        self.why = why


class SettingsError(BroodpostError):
    """An environment variable is missing, unknown or wrong. Start is refused."""


class SendError(BroodpostError):
    """The gateway did not take a text.

    permanent: trying again can't help. unknown: the text may have been accepted (the answer was
    lost), so it must be reconciled and never blindly resent. code: the gateway's own error code.
    """

    def __init__(
        self, why: str, *, permanent: bool, unknown: bool = False, code: int | None = None
    ) -> None:
        super().__init__(why)
        self.permanent = permanent
        self.unknown = unknown
        self.code = code
