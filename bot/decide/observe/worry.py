"""A worry that was told and not understood: spread chicks alone say nothing of litter, feed, water
or illness, so nothing is called well before it was asked what the worry is about.

In: the scene, or what was decided. Out: the question, or what follows on its answer. Common
practice, no source. Called by `answer`, `chicks` and `turn.choose`.
"""

from __future__ import annotations

from dataclasses import replace

from bot.decide.common import about, answers, menu, say
from bot.decide.observe.asking import asking, safest, sign_question
from bot.decide.observe.scene import Scene, taken, tell, worried
from bot.diagnosis.explain import UNCLEAR
from bot.diagnosis.keep import close, keep
from bot.diagnosis.question import SIGN
from bot.diagnosis.story import (
    FEED_LOOK,
    FEED_LOOKS,
    ILL_LOOK,
    ILL_LOOKS,
    WHAT,
    WHATS,
    WORRIED,
)
from bot.diagnosis.weigh import COMFORTABLE, Weighed
from bot.facts.farm import Case
from bot.facts.talk import Decision, Intent, Meaning, Question, Why

PLACE = "behaviour"
FED = {FEED_LOOK, f"{SIGN}not_drinking"}
# What is looked at next, by what the worry is about.
NEXT: dict[str, Question] = {
    "what_feed": menu(FEED_LOOK, "ask_feed_look", FEED_LOOKS),
    "what_water": sign_question("not_drinking"),
    "what_ill": menu(ILL_LOOK, "ask_ill_look", ILL_LOOKS),
}


def told_of_a_worry(decision: Decision, meaning: Meaning, case: Case) -> Decision:
    """Where the chicks are is asked because a text was not understood: the question carries it, for
    "spread out" is then no answer to the worry."""
    question = decision.question
    lost = answers(case, PLACE) and meaning.intent is Intent.OTHER and not meaning.slots.answer
    unread = worried(meaning, case) or lost or case.recent.misses > 0
    if question is None or question.name != PLACE or not unread:
        return decision
    return replace(decision, question=about(question, **{WORRIED: "yes"}))


def what_worries(scene: Scene, weighed: Weighed) -> Decision | None:
    """Before they are called comfortable: what is the worry about? Once that was asked, and not
    answered with "all is well", somebody is to look; None where no worry is open."""
    story = scene.story
    if WORRIED not in story.asked or story.tried:
        return None
    if FED.intersection(story.asked) and WHAT in story.asked:
        return _feed_and_water(scene, weighed)
    if WHAT in story.asked or story.in_a_row >= scene.handbook.causes.row:
        return safest(scene, weighed)
    question = menu(WHAT, "ask_what", WHATS)
    return asking(scene, question, (), scene.why(weighed, UNCLEAR))


def _feed_and_water(scene: Scene, weighed: Weighed) -> Decision:
    """The feed or the water was looked at and is good: how both should stand, and the adviser."""
    told = tell(scene, "a worry about feed or water that a look did not explain", "unclear")
    writes = keep(scene.batch, scene.story.marked("advice:unclear"), cause=None)
    why = scene.why(weighed, UNCLEAR)
    return Decision((*taken(scene), say("feed_and_water")), (*writes, told), None, why)


def after_the_worry(scene: Scene) -> Decision | None:
    """What follows on the thing that the worry is about. None where a sign of it was told beside:
    that is weighed."""
    asked, answer = scene.case.question, scene.answer
    signs = scene.handbook.causes.signs
    if asked is None or asked.name != WHAT or answer is None:
        return None
    if any(one in signs and not signs[one].calm for one in scene.heard.signals):
        return None
    if answer == WHATS[-1]:
        return Decision((say("comfortable"),), close(scene.batch), None, Why(cause=COMFORTABLE))
    following = NEXT.get(answer)
    if following is None:
        return None
    return asking(scene, following, taken(scene), scene.why(scene.weigh(), UNCLEAR))
