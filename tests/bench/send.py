"""Measures sending through a gateway that answers in 50 ms: claimed, posted, written down, beside
bare posts. On SQLite and on PostgreSQL; the pace of the sender number is off.

In: nothing. Out: one JSON line a database. ours: `send_waiting` with 32 threads. reference: 32
threads with a Session each that post the same forms, and nothing else. Also measured: a plain loop
that renders, posts and commits one text after another, and two sender processes beside one (the
latter on PostgreSQL), and as far as two processes of bare posts get beside one. Every text must
have been taken once. Run by scripts/bench.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
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
        took = _post_bare(url, _forms(range(1, texts + 1)))
        if taken(url) != (texts, 0):
            raise AssertionError(f"bare posts: {taken(url)} of {texts}")
    return texts / took


def _forms(farms: Sequence[int]) -> list[Outgoing]:
    return [Outgoing(number(one), render(one), str(one)) for one in farms]


def _post_bare(url: str, forms: Sequence[Outgoing]) -> float:
    """The seconds that 32 threads take to post these."""
    gateway = client(url)
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
        return perf_counter() - begun


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
    """So many sender processes at once on one outbox, until the last is through; what a process
    takes to end is no sending."""
    with stand_in(SECONDS) as url:
        took = _at_once(_sender, [(database, url) for _ in range(count)])
        db = Database(database)
        check(db, url, texts)
        db.close()
    return texts / took


def bare_processes(count: int, texts: int) -> float:
    """So many processes at once that share out the posts of the reference."""
    with stand_in(SECONDS) as url:
        took = _at_once(
            _bare, [(url, range(1 + place, texts + 1, count)) for place in range(count)]
        )
        if taken(url) != (texts, 0):
            raise AssertionError(f"bare posts: {taken(url)} of {texts}")
    return texts / took


def _at_once(work: Callable[..., None], each: Sequence[tuple[Any, ...]]) -> float:
    """Seconds until the last of these processes has said that it is through."""
    made = get_context("spawn")
    barrier, through = made.Barrier(len(each) + 1), made.Queue()
    workers = [made.Process(target=work, args=(*one, barrier, through)) for one in each]
    for one in workers:
        one.start()
    barrier.wait()
    begun = perf_counter()
    for _ in workers:
        through.get()
    took = perf_counter() - begun
    for one in workers:
        one.join()
    return took


def _sender(database: str, url: str, barrier: Barrier, through: Any) -> None:
    db, gateway = Database(database), client(url)
    barrier.wait()
    send_all(db, gateway)
    through.put(True)
    db.close()


def _bare(url: str, farms: Sequence[int], barrier: Barrier, through: Any) -> None:
    forms = _forms(farms)
    barrier.wait()
    _post_bare(url, forms)
    through.put(True)


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
        bare, pair = (bare_processes(count, texts) for count in (1, 2))
        more |= {
            "one_process": round(one),
            "two_processes": round(two),
            "two_to_one": round(two / one, 2),
            "bare_two_to_one": round(pair / bare, 2),
        }
    return line("send", here.name, "texts/s", own, others, begun, **more)


def main() -> None:
    over_databases(
        "send",
        "ten times as many texts",
        lambda here, full: [measure(here, TEXTS * 10 if full else TEXTS)],
    )


if __name__ == "__main__":
    main()
