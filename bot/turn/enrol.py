"""A list of farms, from its lines to its invitations: tried as often as one likes, carried out once
it is confirmed. In: a connection inside a transaction, lines of a spreadsheet. Out: outcomes, a row
each. Called by `broodpost enrol` and the page "Enrol".

An invitation is one text, one reminder the next day, and nothing more without the phone's own yes.
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection

from bot.cooperative.columns import Entry, fold
from bot.cooperative.enrol import House, Outcome, asks_anew, check, dry_run
from bot.day.quiet import opens
from bot.decide.contacts import ask_join
from bot.facts import limits
from bot.facts.farm import Cooperative
from bot.handbook.shapes import Handbook
from bot.records.desk_enrol import (
    Invited,
    add_guests,
    change_people,
    move_guests,
    people_for,
)
from bot.records.outbox_rows import Text, put
from bot.records.planning import Asked, ask_all
from bot.say.render import Voice, compose
from bot.turn.invite import KEPT
from bot.understand.senders import is_served


@dataclass(frozen=True, slots=True)
class Lists:
    """What lists are tried and carried out by. languages: names of languages, as people write
    them, by code. sender: our own number."""

    handbook: Handbook
    house: limits.House
    languages: Mapping[str, Sequence[str]]
    sender: str = ""

    def tried(
        self, connection: Connection, cooperative: Cooperative, entries: Sequence[Entry]
    ) -> list[Outcome]:
        """What a list would do now. Nothing is written."""
        checked = check(entries, self._read_by(cooperative))
        farms = [one.farm for one in checked if one.farm is not None]
        people = people_for(
            connection,
            cooperative.id,
            {one.number for one in farms},
            {one.member for one in farms if one.member},
            self.house.key,
        )
        return dry_run(checked, people)

    def _read_by(self, cooperative: Cooperative) -> House:
        tongues = self.handbook.texts.tongues.values()
        names = {fold(one.own_name): one.code for one in tongues}
        names |= {fold(one.code): one.code for one in tongues}
        for code, words in self.languages.items():
            names |= {fold(word): code for one in words for word in one.split(",")}

        def served(number: str) -> bool:
            return is_served(number, self.sender, cooperative.region, self.house.countries)

        spoken = ", ".join(one.own_name for one in tongues)
        return House(cooperative.region, names, spoken, served)

    def carried_out(
        self,
        connection: Connection,
        cooperative: Cooperative,
        outcomes: Sequence[Outcome],
        now: datetime,
    ) -> int:
        """Invite the new ones, write down what changed; returns how many phones are asked."""
        new = [one for one in outcomes if one.status == "new"]
        changed = [one for one in outcomes if one.status == "changed"]
        asked = add_guests(connection, cooperative.id, cooperative.language, new, now)
        change_people(connection, changed)
        moved = [one for one in changed if asks_anew(one)]
        asked += move_guests(connection, cooperative.id, moved, now)
        self._invite(connection, cooperative, asked, now)
        return len(asked)

    def _invite(
        self, connection: Connection, cooperative: Cooperative, asked: list[Invited], now: datetime
    ) -> None:
        at = opens(cooperative, now, "system")
        question = ask_join()
        said = {code: self._said(cooperative, code) for code in {one.language for one in asked}}
        texts = (
            Text(
                f"invite:{one.phone_id}:1", one.phone_id, one.number, "system",
                said[one.language], now, expires_at=at + KEPT, not_before=at,
            )
            for one in asked
        )  # fmt: skip
        put(connection, *texts)
        ask_all(connection, [Asked(one.phone_id, None, question, None) for one in asked], now)

    def _said(self, cooperative: Cooperative, language: str) -> str:
        voice = Voice(language, cooperative.name, cooperative.vet_number)
        return compose((), ask_join(), voice, self.handbook.texts, pushed=True)


def digest_of(file: bytes) -> str:
    """What stands for a file: SHA-256, hex."""
    return hashlib.sha256(file).hexdigest()
