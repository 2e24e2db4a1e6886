"""The page of a farm: texts of both sides, curves, the open trouble, letters, entries put right."""

from __future__ import annotations

import re
from datetime import timedelta

import pytest
from sqlalchemy import insert, select, update

from bot.facts.talk import Incoming
from bot.records import tables as t
from tests.doors.desk.world import FOREIGN, MOST_BYTES, NOW, OURS, THEIRS, World

NUMBER = "+254700000001"


def farm(world: World) -> str:
    return f"/desk/farm/{world.ids[OURS]['person']}"


def waiting(world: World) -> list[tuple[str, str]]:
    """What waits in the outbox: class and text."""
    with world.db.read() as connection:
        found = select(t.outbox.c.klass, t.outbox.c.text).where(t.outbox.c.state == "waiting")
        return [(row.klass, row.text) for row in connection.execute(found)]


def deeds(world: World) -> list[str]:
    with world.db.read() as connection:
        return list(connection.execute(select(t.audit.c.what).order_by(t.audit.c.id)).scalars())


def test_both_sides_texts_stand_in_one_row_with_parts_and_delivery(world: World) -> None:
    page = world.visitor("looks").get(farm(world)).text
    assert page.index("Mkulima: Day 8. Weigh.") < page.index("Mkulima chicks are loud")
    assert "parts: 1" in page
    assert "arrived" in page


def add_texts(world: World, many: int, length: int = 60) -> None:
    with world.db.write() as connection:
        for at in reversed(range(many)):
            moment = NOW - timedelta(minutes=10 * (at + 1))
            values = {"business_key": f"t{at}", "phone_id": world.ids[OURS]["phone"],
                      "to_number": NUMBER, "klass": "routine", "parts": 1, "encoding": "gsm7",
                      "state": "sent", "text": f"text {at:03} ".ljust(length, "x"),
                      "not_before": moment, "created_at": moment, "sent_at": moment}  # fmt: skip
            connection.execute(insert(t.outbox).values(**values))


def test_thirty_texts_stand_on_a_page_and_the_older_ones_behind_it(world: World) -> None:
    add_texts(world, 50)
    page = world.visitor("looks").get(farm(world)).text
    assert page.count('<li class="machine">') + page.count('<li class="farmer">') == 30
    older = re.search(r'href="([^"]+before=[^"]+)#texts"', page)
    assert older is not None
    behind = world.visitor("looks").get(older[1].replace("&amp;", "&")).text
    shown = set(re.findall(r"text (\d{3})", page + behind))
    assert shown == {f"{at:03}" for at in range(50)}


def test_the_fullest_page_is_under_25_kilobytes_and_each_curve_under_six(world: World) -> None:
    add_texts(world, 40, 160)
    batch = world.ids[OURS]["batch"]
    with world.db.write() as connection:
        connection.execute(
            update(t.batch).values(placed_on=(NOW - timedelta(days=40)).date(), held=True)
        )
        for age in range(41):
            day = (NOW - timedelta(days=40 - age)).date()
            for kind, data in (
                ("deaths", {"n": 1}),
                ("temperature", {"value_c": 33.5 - age / 3}),
                ("weight", {"avg_g": 45 + age * 50}),
                ("feed_eaten", {"kg": 3 + age}),
                ("water", {"litres": 6 + 2 * age}),
            ):
                values = {"batch_id": batch, "kind": kind, "on_date": day, "at": NOW, "data": data}
                connection.execute(insert(t.event).values(**values))
    visitor = world.visitor("owns")
    for language in ("en", "fr", "sw"):
        visitor.post("/desk/you/language", language=language)
        for show in ("", "temperature", "weight", "deaths", "feed", "water"):
            answer = visitor.get(f"{farm(world)}?show={show}")
            curves = re.findall(r"<svg.*?</svg>", answer.text, re.S)
            assert len(curves) == (1 if show else 2)
            assert max(map(len, curves)) < 6000, show
            assert len(answer.data) < MOST_BYTES, (show, len(answer.data))


def test_a_curve_has_its_figures_in_a_table(world: World) -> None:
    page = world.visitor("looks").get(f"{farm(world)}?show=deaths").text
    table = page[page.index("<details>") : page.index("</details>")]
    assert re.search(r"<td>8<td>2<td>", table)


def test_the_open_trouble_is_told_with_its_reasons(world: World) -> None:
    page = world.visitor("looks").get(farm(world)).text
    assert "Named so far: cold." in page
    assert re.search(r"cold \d\d %", page)
    assert "piled at the heat, loud crying" in page


def test_the_trouble_is_told_with_the_accents_of_the_language(world: World) -> None:
    with world.db.write() as connection:
        signs = {"signals": ["litter_wet", "crowded_one_side"], "cause": "damp_litter"}
        connection.execute(update(t.complaint).values(**signs))
    visitor = world.visitor("looks")
    visitor.post("/desk/you/language", language="fr")
    page = visitor.get(farm(world)).text.replace("&#39;", "'")
    assert "la litière humide" in page
    assert "litière mouillée, tous d'un côté" in page
    assert "fourneaux à charbon" in page


def test_a_danger_that_no_vet_was_told_of_stands_on_top_with_its_kind(world: World) -> None:
    with world.db.write() as connection:
        values = {"batch_id": world.ids[OURS]["batch"], "on_date": NOW.date(), "at": NOW}
        connection.execute(insert(t.event).values(kind="alarm", data={"kind": "blood"}, **values))
    visitor = world.visitor("looks")
    assert "10 Mar 2026</time>: blood in the droppings" in visitor.get(farm(world)).text
    with world.db.write() as connection:
        connection.execute(insert(t.event).values(kind="vet", data={}, **values))
    assert "blood in the droppings" not in visitor.get(farm(world)).text


def test_people_in_bad_air_stand_on_top(world: World) -> None:
    with world.db.write() as connection:
        connection.execute(update(t.complaint).values(cause="fumes", signals=["smoke_or_fumes"]))
    page = world.visitor("looks").get(farm(world)).text
    assert "smoke or gas in the house. Ask first how the people are" in page


def test_a_batch_that_is_still_to_come_is_neither_placed_nor_alive(world: World) -> None:
    comes = (NOW + timedelta(days=3)).date()
    with world.db.write() as connection:
        connection.execute(update(t.batch).values(state="planned", placed_on=comes))
    page = world.visitor("looks").get(farm(world)).text
    assert "comes on" in page
    assert "300 expected" in page
    assert "alive of" not in page


def test_that_the_texts_of_the_month_are_used_up_is_said_before_and_after(world: World) -> None:
    with world.db.write() as connection:
        connection.execute(update(t.cooperative).values(budget=5))
        connection.execute(update(t.phone).values(heard_at=NOW - timedelta(days=2)))
        connection.execute(insert(t.tally).values(name=f"parts:{OURS}", period="2026-03", n=5))
    visitor = world.visitor("owns")
    shown = visitor.post(f"{farm(world)}/write", body="Je, wako salama?").text
    assert "used up" in shown
    nonce = re.search(r'name="nonce" value="([^"]+)"', shown)
    assert nonce is not None
    sent = visitor.post(f"{farm(world)}/write", body="Je, wako salama?", nonce=nonce[1])
    assert "used up" in visitor.get(str(sent.headers["Location"])).text
    assert "used up" in visitor.post("/desk/many/try", body="Mkutano Ijumaa").text


def test_a_letter_is_shown_first_and_goes_out_signed_by_both(world: World) -> None:
    visitor = world.visitor("advises")
    shown = visitor.post(f"{farm(world)}/write", body="Je, vifaranga wako « salama » ?")
    text = 'Mkulima (Mkulima): Je, vifaranga wako "salama" ?'
    assert text.replace('"', "&#34;") in shown.text
    assert waiting(world) == []
    nonce = re.search(r'name="nonce" value="([^"]+)"', shown.text)
    assert nonce is not None
    fields = {"body": "Je, vifaranga wako « salama » ?", "nonce": nonce[1]}
    assert visitor.post(f"{farm(world)}/write", **fields).status_code == 303
    assert visitor.post(f"{farm(world)}/write", **fields).status_code == 303  # sent twice by hand
    assert waiting(world) == [("reply", text)]
    assert "wrote" in deeds(world)
    assert '<li class="person">' in visitor.get(farm(world)).text


@pytest.mark.parametrize("word", ["tetracyclin", "5 ml"])
def test_a_medicine_or_a_dose_goes_out_only_as_a_vet_said_it(world: World, word: str) -> None:
    visitor = world.visitor("advises")
    fields = {"body": f"Give them {word} today", "nonce": "n" * 20}
    shown = visitor.post(f"{farm(world)}/write", **fields)
    assert "Only a vet names these" in shown.text
    assert waiting(world) == []
    visitor.post(f"{farm(world)}/write", vet="on", **fields)
    assert len(waiting(world)) == 1
    assert "as a vet said" in world.visitor("owns").get("/desk/who/done").text


def test_a_letter_out_of_the_blue_waits_for_the_morning(world: World) -> None:
    world.clock.move(timedelta(hours=13))  # 22:00 in Nairobi
    with world.db.write() as connection:
        connection.execute(update(t.staff_session).values(seen_at=world.clock.now()))
        connection.execute(update(t.staff_session).values(ends_at=NOW + timedelta(days=1)))
    visitor = world.visitor("advises")
    nonce = "n" * 20
    assert "11 Mar 06:00" in visitor.post(f"{farm(world)}/write", body="Hello").text
    visitor.post(f"{farm(world)}/write", body="Hello", nonce=nonce)
    with world.db.read() as connection:
        row = connection.execute(select(t.outbox).where(t.outbox.c.klass == "system")).one()
    assert row.not_before == NOW + timedelta(hours=21)


@pytest.mark.parametrize(
    ("values", "why"),
    [
        ({"consent": "stopped"}, "asked for no more texts"),
        ({"consent": "invited"}, "has not said yes"),
        ({"consent": "unknown"}, "never joined"),
        ({"suspended": True}, "do not arrive"),
    ],
)
def test_nobody_writes_to_a_phone_that_may_not_be_written_to(
    world: World, values: dict[str, object], why: str
) -> None:
    with world.db.write() as connection:
        connection.execute(update(t.phone).values(**values))
    visitor = world.visitor("advises")
    assert why in visitor.get(farm(world)).text
    answer = visitor.post(f"{farm(world)}/write", body="Hello", nonce="n" * 20)
    assert (answer.status_code, waiting(world)) == (400, [])


def test_a_letter_of_more_than_three_parts_is_refused_with_its_text_kept(world: World) -> None:
    answer = world.visitor("advises").post(f"{farm(world)}/write", body="drum " * 100)
    assert answer.status_code == 400
    assert "three parts at most" in answer.text
    assert "drum drum" in answer.text


def test_an_entry_put_right_stands_for_the_one_told_and_both_stay(world: World) -> None:
    visitor = world.visitor("advises")
    entry = f"/desk/entry/{world.ids[OURS]['entry']}"
    assert 'value="2"' in visitor.get(entry).text
    assert visitor.post(f"{entry}/change", figure="12").status_code == 303
    page = visitor.get(farm(world)).text
    assert "288 alive of 300" in page
    with world.db.read() as connection:
        found = connection.execute(
            select(t.event.c.data).where(t.event.c.batch_id == world.ids[OURS]["batch"])
        ).scalars()
        told = [one["n"] for one in found]
    assert told == [2, 12]
    assert visitor.get(entry).status_code == 404  # what was replaced is put right no more


@pytest.mark.parametrize("figure", ["many", "-1", "2.5", "303", "", "nan", "inf", "1e9"])
def test_a_figure_that_can_not_be_is_refused(world: World, figure: str) -> None:
    entry = f"/desk/entry/{world.ids[OURS]['entry']}/change"
    answer = world.visitor("advises").post(entry, figure=figure)
    assert answer.status_code == 400
    assert "298 alive of 300" in world.visitor("looks").get(farm(world)).text


def test_an_entry_is_taken_back(world: World) -> None:
    visitor = world.visitor("advises")
    visitor.post(f"/desk/entry/{world.ids[OURS]['entry']}/change", back="1")
    assert "300 alive of 300" in visitor.get(farm(world)).text
    assert deeds(world) == ["entry_back"]


def test_a_hold_ends_only_when_a_vet_has_cleared_the_birds(world: World) -> None:
    with world.db.write() as connection:
        connection.execute(update(t.batch).values(held=True))
    visitor = world.visitor("advises")
    release = f"/desk/batch/{world.ids[OURS]['batch']}/release"
    assert "change boots" in visitor.get(farm(world)).text
    assert visitor.post(release).status_code == 400
    assert visitor.post(release, cleared="on").status_code == 303
    assert "change boots" not in visitor.get(farm(world)).text
    assert visitor.post(release, cleared="on").status_code == 400


def test_a_farm_is_found_by_its_name_or_the_end_of_its_number(world: World) -> None:
    visitor = world.visitor("looks")
    for wanted in ("amina", "MKULIMA", "0700 000 001", "001"):
        assert "Mkulima Amina" in visitor.post("/desk/farms", wanted=wanted).text, wanted
    for wanted in ("zebra", "%", "_mina", "002", "254700000002"):
        assert "/desk/farm/" not in visitor.post("/desk/farms", wanted=wanted).text, wanted


def test_a_farm_stands_with_its_place_and_is_found_by_it(world: World) -> None:
    with world.db.write() as connection:
        connection.execute(update(t.person).values(place="Kilimani"))
    visitor = world.visitor("looks")
    for wanted, found in (("kilim", 1), ("Bondeni", 0)):
        page = visitor.post("/desk/farms", wanted=wanted).text
        assert page.count("<td>Kilimani</td>") == found
    assert "<dd>Kilimani</dd>" in visitor.get(farm(world)).text


def test_what_is_held_of_a_person_is_handed_out_and_nothing_of_another(world: World) -> None:
    with world.db.write() as connection:
        add_neighbour = insert(t.person).values(
            id=77, cooperative_id=OURS, language="en", name="Neighbour Juma", created_at=NOW
        )
        connection.execute(add_neighbour)
    answer = world.visitor("owns").post(f"{farm(world)}/held.jsonl")
    assert "attachment" in answer.headers["Content-Disposition"]
    assert "Mkulima chicks are loud" in answer.text
    assert "Juma" not in answer.text
    assert "Zebra" not in answer.text
    assert deeds(world) == ["person_exported"]


def test_whoever_wishes_it_is_forgotten_but_not_their_birds(world: World) -> None:
    visitor = world.visitor("owns")
    assert visitor.post(f"{farm(world)}/forget").status_code == 400
    assert visitor.post(f"{farm(world)}/forget", wished="on").status_code == 303
    everything = visitor.get("/desk/farms").text + visitor.get("/desk/who/done").text
    assert "Amina" not in everything
    assert NUMBER not in everything
    with world.db.read() as connection:
        bodies = connection.execute(select(t.turn.c.body)).scalars().all()
        theirs = connection.execute(
            select(t.event.c.data).where(t.event.c.batch_id == world.ids[OURS]["batch"])
        ).scalars()
        assert {body for body in bodies if FOREIGN not in body} == {""}
        assert list(theirs) == [{"n": 2}]
        names = connection.execute(
            select(t.person.c.name).where(t.person.c.cooperative_id == THEIRS)
        ).scalars()
        assert list(names) == ["Zebra Amina"]


def test_a_farmers_text_stands_on_the_page_when_it_has_come(world: World) -> None:
    taken = world.bot.take(
        Incoming("SM9", "ACtest", NUMBER, "+254700000100", "3 dead <b>today</b>", NOW, "sms")
    )
    assert taken is not None
    page = world.visitor("looks").get(farm(world)).text
    assert "3 dead &lt;b&gt;today&lt;/b&gt;" in page
    assert "answered at once" in page
