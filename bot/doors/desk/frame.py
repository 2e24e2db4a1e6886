"""What all pages of the desk share: who is signed in, what they may, forms, words, the layout.

In: the Bot. Out: `Desk`, with which a page hangs itself up:

    def hang(desk: Desk) -> None:
        @desk.page("/visits", needs="looks", nav="visits")
        def visits(who: Signed) -> Answer:
            with desk.bot.db.read() as connection:
                farms = farms_in_need(connection, who.cooperative.id)
            return desk.show("visits.html", who, farms=farms)

Every page states which role it needs, or that it needs nobody to be signed in; so none is open by
being forgotten. A form that changes something is posted and holds `{{ hidden() }}`.
"""

from __future__ import annotations

import gzip
import hashlib
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from functools import cache, wraps
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from flask import (
    Blueprint,
    Response,
    abort,
    g,
    make_response,
    redirect,
    render_template,
    request,
    url_for,
)
from markupsafe import Markup
from werkzeug.exceptions import HTTPException
from werkzeug.wrappers import Response as AnyResponse

from bot.cooperative.farm import shown
from bot.cooperative.may import Role, Signed
from bot.doors.desk.tokens import form_token, is_own_form, new_token
from bot.handbook.load import content_folder
from bot.handbook.pages import DESK, load_own_pages, load_pages, page_terms
from bot.handbook.shape_texts import BASE
from bot.proof.medicine import load_forbidden
from bot.records.desk_again import drop_typed, forget_typed, keep_typed, typed, whose_session
from bot.records.desk_staff import is_to_note, note_use, signed_in
from bot.wiring import Bot

Answer = AnyResponse | str
View = Callable[..., Answer]
COOKIE = "desk"
START_COOKIE = "desk_start"  # of the forms that nobody is signed in for yet
PATH = "/desk"
FARMS = ("farm", "entry", "batch")  # where the addresses of pages below Farms begin
ORDER = ("visits", "farms", "enrol", "unread", "many", "practice", "rules", "costs", "who")
STYLE = (Path(__file__).parent / "style.css").read_text("utf-8")
STYLE_NAME = f"style-{hashlib.sha256(STYLE.encode()).hexdigest()[:12]}.css"
POLICY = (
    "default-src 'none'; style-src 'self'; img-src 'self' data:; form-action 'self'; "
    "frame-ancestors 'none'; base-uri 'none'"
)
WORTH_PACKING = 1024  # bytes
AGAIN = "again"  # of a page whose form holds again what was typed; and of that form
MARKS = ("form_token", AGAIN)  # fields that nobody typed
MOST_TYPED = 4000  # letters
MOST_ID, MOST_DIGITS = 2**31 - 1, 10  # of a row in PostgreSQL


@dataclass(frozen=True, slots=True)
class Link:
    """A page that stands in the navigation, at this path."""

    name: str
    endpoint: str
    path: str
    needs: Role


@dataclass(frozen=True, slots=True)
class Words:
    """The words of one language: `w("farms.title")`, `w("farms.found", n=5)`."""

    code: str
    by_key: Mapping[str, str]

    def __call__(self, key: str, /, **values: object) -> str:
        word = self.by_key[key]
        return word.format(**values) if values else word

    def named(self, group: str, name: str, otherwise: str | None = None) -> str:
        """The word of a name that comes from data; otherwise, or the name, where there is none."""
        return self.by_key.get(f"{group}.{name}", name if otherwise is None else otherwise)


class _Typed(dict[str, str]):
    """Fields of a form by name; what was not typed is empty."""

    def __missing__(self, name: str) -> str:
        return ""


class Desk:
    """What a page is hung up with, and answers with. needs: by endpoint, the role that it needs;
    None for a page that nobody need be signed in for."""

    def __init__(self, bot: Bot) -> None:
        self.bot = bot
        self.blueprint = Blueprint("desk", __name__, url_prefix=PATH, template_folder="templates")
        self.needs: dict[str, Role | None] = {}
        self.links: list[Link] = []
        content = content_folder(bot.settings.content)
        self.words, self.paper = _words_of(content)
        self.terms = page_terms(content, bot.thinking.handbook.texts.tongues)
        self.forbidden = load_forbidden(content)  # what only a vet may name
        self.names = {code: words("frame.language") for code, words in self.words.items()}
        self.is_secret = urlsplit(bot.settings.public_url).scheme == "https"
        self.blueprint.register_error_handler(HTTPException, self._refused)
        self.blueprint.after_request(self._sent)

    # Hanging a page up

    def page(
        self,
        path: str,
        *,
        needs: Role | None,
        methods: Sequence[str] = ("GET",),
        nav: str | None = None,
        before_proof: bool = False,
        largest: int | None = None,
        form_on: str | None = None,
    ) -> Callable[[View], View]:
        """Hang up a view under /desk. needs: the least role; None: nobody need be signed in. nav:
        its name in the navigation (see ORDER). before_proof: it may be seen before the password was
        changed and the second factor shown. largest: bytes of a body, where more than usual.
        form_on: the page that this form stands on, `again` holding its fields: where the session
        has ended meanwhile, what was typed stands there again after signing in.

        The view is called with `Signed` (with nothing where needs is None) and what the path holds.
        """

        def hung(view: View) -> View:
            endpoint = f"desk.{view.__name__}"
            self.needs[endpoint] = needs
            if nav is not None and needs is not None:
                self.links.append(Link(nav, endpoint, PATH + path, needs))
                self.links.sort(key=lambda one: ORDER.index(one.name))

            @wraps(view)
            def guarded(**values: Any) -> Answer:
                if largest is not None:
                    request.max_content_length = largest
                if any(map(_too_large, (*values.values(), *request.args.values()))):
                    abort(404)
                if needs is None:
                    self._own_form_only(request.cookies.get(START_COOKIE, ""))
                    return view(**values)
                who = self._signed()
                form = url_for(f"desk.{form_on}", **values) if form_on else None
                if who is None:
                    to = self._keep_typed(form) or _asked_for()
                    return redirect(url_for("desk.sign_in", to=to), 303)
                if not before_proof and who.must_prove:
                    to = self._keep_typed(form) or _asked_for()
                    return redirect(url_for("desk.code", to=to), 303)
                if not before_proof and who.fresh:
                    return redirect(url_for("desk.you"), 303)
                if not who.may(needs):
                    abort(403)
                self._own_form_only(request.cookies.get(COOKIE, ""))
                if form and AGAIN in request.form:
                    with self.bot.db.write() as connection:
                        drop_typed(connection, who.staff_id, form)
                return view(who, **values)

            self.blueprint.add_url_rule(path, view.__name__, guarded, methods=list(methods))
            return view

        return hung

    def _signed(self) -> Signed | None:
        token = request.cookies.get(COOKIE, "")
        if not token:
            return None
        now = self.bot.clock.now()
        with self.bot.db.read() as connection:
            who = signed_in(connection, token, now)
        if who is not None and is_to_note(who, now):
            with self.bot.db.write() as connection:
                note_use(connection, who.session_id, now)
        g.who = who
        return who

    def _own_form_only(self, token: str) -> None:
        """400 for a form of another site, or of a session that is over."""
        posted = request.method not in ("GET", "HEAD", "OPTIONS")
        if posted and not (token and is_own_form(token, request.form.get("form_token", ""))):
            abort(400)

    # A form that was sent after its session had ended

    def _keep_typed(self, form: str | None) -> str | None:
        """Keep what was typed; the address of the page where it stands again. None where nothing
        is kept: for another page, or what comes from nobody who was signed in here."""
        token = request.cookies.get(COOKIE, "")
        mine = form and request.method == "POST" and token
        if not mine or not is_own_form(token, request.form.get("form_token", "")):
            return None
        fields = {name: value for name, value in request.form.items() if name not in MARKS}
        if sum(map(len, fields.values())) > MOST_TYPED:
            return None
        now = self.bot.clock.now()
        with self.bot.db.write() as connection:
            staff_id = whose_session(connection, token)
            if staff_id is None or form is None:
                return None
            forget_typed(connection, now)
            keep_typed(connection, staff_id, form, fields, now)
        return f"{form}?{AGAIN}=1"

    def again(self, who: Signed) -> dict[str, str]:
        """What stands in the form of this page again; nothing as a rule."""
        if AGAIN not in request.args or request.method != "GET":
            return {}
        if "again" not in g:
            with self.bot.db.read() as connection:
                now = self.bot.clock.now()
                g.again = typed(connection, who.staff_id, request.path, now)
        found: dict[str, str] = g.again
        return found

    # Answering

    def tongue(self, who: Signed | None = None) -> Words:
        """The words in the language of who is signed in, else of the browser."""
        wanted = who.language if who else request.args.get("lang", "")
        found = wanted if wanted in self.words else ""
        if not found and who is None:
            found = request.accept_languages.best_match(list(self.words)) or ""
        return self.words[found or BASE]

    def show(
        self, template: str, who: Signed | None, *, status: int = 200, **values: object
    ) -> Response:
        """A page. In its template: w (words), who, when(moment), day(date), shown(figure),
        hidden() in every form, again (see `page`), and what is given here."""
        w = self.tongue(who)
        token = request.cookies.get(COOKIE if who else START_COOKIE, "")
        begun = "" if token else new_token()
        again = self.again(who) if who else {}
        zone = who.cooperative.zone if who else None

        def when(moment: datetime) -> Markup:
            return _time(moment.astimezone(zone), w)

        found = render_template(
            template,
            w=w,
            who=who,
            links=[one for one in self.links if who and _leads(who, one)],
            here=request.endpoint,
            section=_section(),
            style=STYLE_NAME,
            languages=sorted(self.words),
            when=when,
            day=lambda one: _day(one, w),
            shown=shown,
            names=self.names,
            hidden=cache(lambda: _hidden(form_token(token or begun), again=bool(again))),
            again=_Typed(again),
            **values,
        )
        answer = make_response(found, status)
        if begun and who is None:
            self.keep(answer, START_COOKIE, begun)
        return answer

    def keep(self, answer: Response, name: str, token: str) -> None:
        """Give the browser a cookie that no script and no other site can read or send."""
        answer.set_cookie(
            name, token, path=PATH, httponly=True, samesite="Lax", secure=self.is_secret
        )

    def drop(self, answer: Response, name: str) -> None:
        """Take a cookie back."""
        answer.delete_cookie(name, path=PATH, httponly=True, samesite="Lax", secure=self.is_secret)

    def go(self, endpoint: str, **values: Any) -> Response:
        """On to another page, after a form was done; it can't be sent twice by a reload."""
        answer = redirect(url_for(f"desk.{endpoint}", **values), 303)
        return make_response(answer)

    def _refused(self, error: HTTPException) -> Response:
        """A refusal as a page, in words, without echoing anything that came in."""
        code = error.code or 500
        if error.response is not None and isinstance(error.response, Response):
            return error.response
        known = code if f"refused.{code}" in self.tongue().by_key else 400
        who = g.get("who") or self._signed()
        return self.show("refused.html", who, status=code, refused=f"refused.{known}")

    def _sent(self, answer: Response) -> Response:
        answer.headers.setdefault("Content-Security-Policy", POLICY)
        answer.headers.setdefault("X-Frame-Options", "DENY")
        answer.headers.setdefault("X-Robots-Tag", "noindex")
        answer.headers.setdefault("Cross-Origin-Opener-Policy", "same-origin")
        answer.headers.setdefault("Referrer-Policy", "same-origin")
        if self.is_secret:
            answer.headers.setdefault("Strict-Transport-Security", "max-age=31536000")
        return _packed(answer)


@cache
def _words_of(content: Path) -> tuple[dict[str, Words], Mapping[str, Mapping[str, str]]]:
    """The words of the desk in the languages that have some, and those of printed curves."""
    own, whole = load_own_pages(content, DESK), load_pages(content, DESK)
    return {code: Words(code, whole[code]) for code in own if own[code]}, load_pages(content)


def _packed(answer: Response) -> Response:
    """Compressed where the browser takes it: a page over a slow line in a quarter of the time."""
    takes = "gzip" in request.headers.get("Accept-Encoding", "").lower()
    text = (answer.mimetype or "").startswith("text/")
    if not takes or not text or answer.direct_passthrough or answer.is_streamed:
        return answer
    body = answer.get_data()
    if len(body) >= WORTH_PACKING and "Content-Encoding" not in answer.headers:
        answer.set_data(gzip.compress(body, 6, mtime=0))
        answer.headers["Content-Encoding"] = "gzip"
        answer.headers.add("Vary", "Accept-Encoding")
    return answer


def _too_large(value: object) -> bool:
    """Whether this is a number that no row can have: a database would stumble over it."""
    digits = str(value).lstrip("+-")
    return digits.isdecimal() and (len(digits) > MOST_DIGITS or int(digits) > MOST_ID)


def _asked_for() -> str | None:
    """The page that was asked for, to go on to after signing in."""
    asked = request.method == "GET" and request.path != PATH + "/"
    return request.full_path.rstrip("?") if asked else None


def _leads(who: Signed, link: Link) -> bool:
    """Whether that page opens: not before the password was changed and the second factor shown."""
    return who.may(link.needs) and not who.must_prove and not who.fresh


def _section() -> str:
    """The name in the navigation of the page that this is, or lies below."""
    first = request.path.removeprefix(PATH).strip("/").partition("/")[0]
    return "farms" if first in FARMS else first


def _hidden(token: str, *, again: bool) -> Markup:
    mark = Markup('<input type="hidden" name="{}" value="1">').format(AGAIN) if again else ""
    return Markup('<input type="hidden" name="form_token" value="{}">{}').format(token, mark)


def _time(moment: datetime, w: Words) -> Markup:
    said = f"{moment.day} {w('frame.months').split()[moment.month - 1]} {moment:%H:%M}"
    return Markup('<time datetime="{}">{}</time>').format(f"{moment:%Y-%m-%dT%H:%M%z}", said)


def _day(one: date, w: Words) -> Markup:
    said = f"{one.day} {w('frame.months').split()[one.month - 1]} {one.year}"
    return Markup('<time datetime="{}">{}</time>').format(one.isoformat(), said)
