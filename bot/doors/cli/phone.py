"""`broodpost phone` and `broodpost story`: a farmer's phone in the terminal (scripts/try)."""

from __future__ import annotations

import sys
import tempfile
from contextlib import nullcontext
from datetime import datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import click

from bot.doors.cli import screen
from bot.doors.cli.demo import DeskBeside
from bot.doors.cli.handset import ZONE, Handset
from bot.doors.cli.story import load_story, play
from bot.handbook.load import content_folder
from bot.handbook.texts import load_texts

EXAMPLE = "500 chicks today"
INTRO = """\
This is a farmer's phone. Type a text in {languages} and press Enter.
+3h or +2d lets time pass, ? shows what else to try, q hangs up. Enter alone sends the example:
  {example}"""
TRY = """\
  500 chicks today            register (then answer what it asks, with a digit)
  they have come              the first day begins
  +1d                         let a day pass and read what comes
  all near the stove, crying  tell what the chicks do (then +2h for the check-back)
  along the walls             a sign that could be two things
  12 dead                     danger
  kiswahili                   another language
  status | why | undo | stop"""


@click.command("phone")
@click.option("--desk", is_flag=True, help="open the desk of an invented cooperative beside it")
def phone_command(desk: bool) -> None:
    """Open a farmer's phone in the terminal, with the whole service behind it."""
    if not sys.stdin.isatty():
        _tell_story()
        return
    with DeskBeside() if desk else nullcontext() as beside:
        _open(beside)


def _open(beside: DeskBeside | None) -> None:
    with tempfile.TemporaryDirectory(prefix="broodpost-") as folder:
        start = datetime.now(ZoneInfo(ZONE)).replace(hour=9, minute=0, second=0, microsecond=0)
        with Handset(Path(folder), start) as handset:
            _talk(handset, beside)


@click.command("story")
def story_command() -> None:
    """Play an invented farm from its first text to Day 17."""
    _tell_story()


def _tell_story() -> None:
    story = load_story(content_folder() / "stories" / "en.yaml")
    colour = sys.stdout.isatty()
    with (
        tempfile.TemporaryDirectory(prefix="broodpost-") as folder,
        Handset(Path(folder), story.begins) as handset,
    ):
        for line in play(story, handset, colour=colour):
            print(line, flush=True)
        print(screen.totals(handset.figures()))


def _talk(handset: Handset, beside: DeskBeside | None) -> None:
    names = (tongue.own_name for tongue in load_texts(content_folder()).tongues.values())
    print(INTRO.format(languages=", ".join(names), example=EXAMPLE))
    if beside is not None:
        print("The desk stays open until you hang up; code prints the owner's next code.")
    first = True
    while True:
        try:
            typed = input(f"\n{screen.moment(handset.now)}  you > ").strip()
        except (EOFError, KeyboardInterrupt):
            typed = "q"
        if typed == "q":
            print(screen.totals(handset.figures()))
            return
        if typed == "?":
            print(TRY)
            continue
        if typed == "code" and beside is not None:
            print(f"  the owner's code now: {beside.code()}")
            continue
        if not typed:
            if not first:
                continue
            typed = EXAMPLE
            print(f"                 {typed}")
        first = False
        _do(handset, typed)


def _do(handset: Handset, typed: str) -> None:
    step = _step(typed)
    seen = handset.wait(step) if step else handset.say(typed)
    if not seen:
        print("                 (nothing came)" if step else "                 (no answer)")
    for one in seen:
        print(screen.service(one))
        why = screen.reasons(one.why)
        if why:
            print(screen.grey(why, sys.stdout.isatty()))


def _step(typed: str) -> timedelta | None:
    """+3h, +2d or +30m as a span; None for anything else."""
    if not typed.startswith("+") or typed[-1:] not in "hdm" or not typed[1:-1].isdigit():
        return None
    number = min(int(typed[1:-1]), 1000)
    return {"h": timedelta(hours=1), "d": timedelta(days=1), "m": timedelta(minutes=1)}[
        typed[-1]
    ] * number
