"""Measures sending through a gateway that answers in 50 ms: claimed, posted, written down, beside
bare posts. On SQLite and on PostgreSQL; the pace of the sender number is off.

In: nothing. Out: one JSON line a database. ours: `send_waiting` with 32 threads. reference: 32
threads with a Session each that post the same forms, and nothing else. Also measured: a plain loop
that renders, posts and commits one text after another, and two sender processes beside one (the
latter on PostgreSQL). Every text must have been taken once. Run by scripts/bench.
"""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from functools import cache
from multiprocessing import get_context
from multiprocessing.synchronize import Barrier
from threading import Barrier as ThreadBarrier
from time import monotonic, perf_counter
from typing import Any

from sqlalchemy import func, insert, select, update

from bot.facts.talk import Line
from bot.gateway.client import Outgoing, TwilioCompatible
from bot.handbook.load import content_folder, load_handbook
from bot.handbook.shapes import Handbook
from bot.outbox.dispatch import send_waiting
from bot.records import tables as t
from bot.records.migrate import upgrade
from bot.records.outbox_rows import Text, put
from bot.records.session import Database
from bot.say.render import Voice, compose
from bot.settings import Settings
from bot.wiring import cooperative_values
from tests.bench.databases import Place
from tests.bench.farms import MORNING, number
from tests.bench.sides import Line as JsonLine
from tests.bench.sides import by_turns, line, over_databases
from tests.bench.stand_in import stand_in, taken

SECONDS, THREADS = 0.05, 32
TEXTS, ROUNDS, PLAIN_TEXTS = 1600, 5, 40
ACCOUNT, TOKEN, SENDER = "ACbench", "bench", "+15005550006"
BARS = "ratio at least 0.7; 20 times the plain loop; two processes 1.8 of one"
LINES = (Line("day", {"age": 4}), Line("sign_about", {"target": 31.0}), Line("paper_off"))


def client(url: str) -> TwilioCompatible:
    return TwilioCompatible(url, ACCOUNT, TOKEN, SENDER, "http://127.0.0.1:9/sms/receipt")


@cache
def handbook() -> Handbook:
    return load_handbook(content_folder())


def render(farm: int) -> str:
    """A morning text; the farm's number makes each one of its own."""
    voice = Voice("en", "Umoja")
    return f"{compose(LINES, None, voice, handbook().texts, pushed=True)} {farm}"


def fill(db: Database, texts: int) -> None:
    """One waiting text for each of so many phones."""
    known = {"cooperative_id": 1, "consent": "active", "created_at": MORNING}
    with db.write() as connection:
        connection.execute(insert(t.cooperative).values(**cooperative_values(Settings())))
        connection.execute(
            insert(t.phone), [known | {"number": number(one)} for one in range(1, texts + 1)]
        )
        rows = [
            Text(f"bench:{one}", one, number(one), "routine", render(one), MORNING)
            for one in range(1, texts + 1)
        ]
        put(connection, *rows)


def ours(database: str, texts: int) -> float:
    """The real sender until nothing waits."""
    db = Database(database, pool_size=10)
    with stand_in(SECONDS) as url:
        gateway = client(url)
        begun = perf_counter()
        send_all(db, gateway)
        took = perf_counter() - begun
        check(db, url, texts)
    db.close()
    return texts / took


def send_all(db: Database, gateway: TwilioCompatible) -> None:
    """Call after call, as a worker does, until one finds nothing."""
    while send_waiting(db, gateway, MORNING, 100_000, threads=THREADS, tidy=False).sent:
        pass


def check(db: Database, url: str, texts: int) -> None:
    """Every text was taken once and stands as sent."""
    with db.read() as connection:
        sent = connection.execute(
            select(func.count()).select_from(t.outbox).where(t.outbox.c.state == "sent")
        ).scalar_one()
    if (sent, *taken(url)) != (texts, texts, 0):
        raise AssertionError(f"of {texts} texts {sent} stand as sent; taken, doubled: {taken(url)}")


def bare_posts(texts: int) -> float:
    """The reference: 32 threads with a Session each post the same forms and read the answers."""
    with stand_in(SECONDS) as url:
        gateway = client(url)
        forms = [Outgoing(number(one), render(one), str(one)) for one in range(1, texts + 1)]
        start = ThreadBarrier(THREADS + 1)

        def post(place: int) -> None:
            start.wait()
            for one in forms[place::THREADS]:
                gateway.send(one)

        with ThreadPoolExecutor(THREADS) as pool:
            done = [pool.submit(post, place) for place in range(THREADS)]
            start.wait()
            begun = perf_counter()
            for one in done:
                one.result()
            took = perf_counter() - begun
        if taken(url) != (texts, 0):
            raise AssertionError(f"bare posts: {taken(url)} of {texts}")
    return texts / took


def plain_loop(database: str, texts: int) -> float:
    """Render, post, commit, one text after another, through Core and one kept connection."""
    db = Database(database)
    with stand_in(SECONDS) as url:
        gateway = client(url)
        begun = perf_counter()
        for one in range(1, texts + 1):
            sent = gateway.send(Outgoing(number(one), render(one), str(one)))
            with db.write() as connection:
                connection.execute(
                    update(t.outbox)
                    .where(t.outbox.c.id == one)
                    .values(state="sent", gateway_sid=sent.sid, sent_at=MORNING)
                )
        took = perf_counter() - begun
    db.close()
    return texts / took


def processes(database: str, count: int, texts: int) -> float:
    """So many sender processes at once on one outbox."""
    made = get_context("spawn")
    barrier = made.Barrier(count + 1)
    with stand_in(SECONDS) as url:
        workers = [
            made.Process(target=_sender, args=(database, url, barrier)) for _ in range(count)
        ]
        for one in workers:
            one.start()
        barrier.wait()
        begun = perf_counter()
        for one in workers:
            one.join()
        took = perf_counter() - begun
        db = Database(database)
        check(db, url, texts)
        db.close()
    return texts / took


def _sender(database: str, url: str, barrier: Barrier) -> None:
    db, gateway = Database(database), client(url)
    barrier.wait()
    send_all(db, gateway)
    db.close()


def measure(here: Place, texts: int = TEXTS, rounds: int = ROUNDS) -> JsonLine:
    """The JSON line of one database."""
    begun = monotonic()
    db = Database(here.make("filled"))
    upgrade(db)
    fill(db, texts)
    db.close()

    def fresh() -> str:
        return here.copy("filled", "round")

    own, others = by_turns(lambda: ours(fresh(), texts), lambda: bare_posts(texts), rounds)
    plain = plain_loop(fresh(), min(texts, PLAIN_TEXTS))
    more: dict[str, Any] = {
        "texts": texts,
        "gateway_s": SECONDS,
        "threads": THREADS,
        "pace": "off",
        "plain_loop": round(plain, 1),
        "to_plain_loop": round(sorted(own)[len(own) // 2] / plain, 1),
        "bar": BARS,
    }
    if here.name == "postgresql":
        one, two = (processes(fresh(), count, texts) for count in (1, 2))
        more |= {"one_process": round(one), "two_processes": round(two),
                 "two_to_one": round(two / one, 2)}  # fmt: skip
    return line("send", here.name, "texts/s", own, others, begun, **more)


def main() -> None:
    over_databases(
        "send",
        "ten times as many texts",
        lambda here, full: [measure(here, TEXTS * 10 if full else TEXTS)],
    )


if __name__ == "__main__":
    main()
