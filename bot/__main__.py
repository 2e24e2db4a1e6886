"""The command line's entry: `broodpost` or `python -m bot`."""

from __future__ import annotations

import sys

from bot.doors.cli.group import broodpost
from bot.errors import BroodpostError


def main() -> None:
    """Run the command; an error of our own is one clear line, not a trace."""
    try:
        broodpost()
    except BroodpostError as error:
        print(f"broodpost: {error}", file=sys.stderr)
        sys.exit(1)


if __name__ == "__main__":
    main()
