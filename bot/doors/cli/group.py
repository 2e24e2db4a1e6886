"""The commands, gathered. Each lives in a file of its own."""

from __future__ import annotations

import click

from bot.doors.cli.adviser import adviser_command
from bot.doors.cli.causes import causes_command
from bot.doors.cli.changes import changes_command
from bot.doors.cli.checkup import checkup_command
from bot.doors.cli.demo import demo_command
from bot.doors.cli.enrol import enrol_command
from bot.doors.cli.figure import figure_command
from bot.doors.cli.move import move_command
from bot.doors.cli.people import people_command
from bot.doors.cli.phone import phone_command, story_command
from bot.doors.cli.plan import plan_command
from bot.doors.cli.proof import proof_command
from bot.doors.cli.read import read_command
from bot.doors.cli.rehearse import rehearse_command
from bot.doors.cli.report import report_command
from bot.doors.cli.serve import serve_command
from bot.doors.cli.staff import staff_command
from bot.doors.cli.teach import teach_command
from bot.doors.cli.worker import worker_command


@click.group()
def broodpost() -> None:
    """An adviser by text message for smallholders who brood and raise broiler chicks."""


for _command in (
    read_command,
    rehearse_command,
    figure_command,
    plan_command,
    report_command,
    serve_command,
    proof_command,
    causes_command,
    changes_command,
    teach_command,
    checkup_command,
    adviser_command,
    people_command,
    enrol_command,
    staff_command,
    phone_command,
    demo_command,
    story_command,
    move_command,
    worker_command,
):
    broodpost.add_command(_command)
