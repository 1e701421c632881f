"""The gate in front of all pages, as ASGI middleware."""

from __future__ import annotations

from collections.abc import Callable, MutableMapping
from dataclasses import dataclass
from http.cookies import CookieError, SimpleCookie
from typing import Any

from starlette.datastructures import Headers
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from fitwright.web.errors import NotTaken, Refused, TooMuch
from fitwright.web.guard.forms import read_form
from fitwright.web.guard.headers import with_policy
from fitwright.web.guard.names import Names
from fitwright.web.guard.sessions import LASTS, Key, Session

OPEN = ("/static/", "/pair")
"""What an unpaired device may see."""


@dataclass(frozen=True)
class Gate:
    """Lets a request through to `app` when it is addressed to us, comes from our own pages, and is small enough.

    pairing: whether devices must be paired. takes_files: whether an address takes files with its form. The form of a
    POST is read here, once, and handed on in the scope.
    """

    app: ASGIApp
    names: Names
    key: Key
    pairing: bool
    takes_files: Callable[[str], bool] = lambda path: False

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """One request."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return

        async def sent(message: Message) -> None:
            if message["type"] == "http.response.start":
                message["headers"] = with_policy([*message.get("headers", []), *self._cookie(scope)])
            await send(message)

        try:
            refusal = await self._let_in(scope, receive)
        except (Refused, NotTaken, TooMuch) as wrong:
            refusal = PlainTextResponse(f"{wrong}\n", _status(wrong))
        await (refusal or self.app)(scope, receive, sent)

    async def _let_in(self, scope: Scope, receive: Receive) -> Response | None:
        headers = Headers(scope=scope)
        host = headers.get("host", "")
        if not self.names.knows(host):
            raise NotTaken("this address is not one of the workbench's: open it by the address in the terminal")
        session = self._session(headers)
        scope["session"] = session or self.key.begin(paired=False)
        scope["new_session"] = session is None
        scope["token"] = self.key.token(scope["session"])
        if self.pairing and not scope["session"].paired and not scope["path"].startswith(OPEN):
            return RedirectResponse("/pair", 303)
        if scope["method"] not in ("GET", "HEAD"):
            self._same_origin(headers, host)
            form = await read_form(headers, receive, self.takes_files(scope["path"]))
            scope["form"], scope["files"] = form.fields, form.files
            self._same_page(scope, headers)
        return None

    def _session(self, headers: Headers) -> Session | None:
        try:
            cookie = SimpleCookie(headers.get("cookie", "")).get(self.cookie_name)
        except CookieError:
            return None
        return self.key.session(cookie.value) if cookie else None

    @property
    def cookie_name(self) -> str:
        """Cookies know no ports: two servers on one machine keep theirs apart by name."""
        return f"fitwright_{self.names.port}"

    def _cookie(self, scope: Scope) -> list[tuple[bytes, bytes]]:
        session = scope.get("session")
        wanted = scope.get("new_session") and scope["path"].rpartition("/")[2].find(".") < 0
        if session is None or not wanted or (self.pairing and not session.paired):
            return []
        said = f"{self.cookie_name}={self.key.cookie(session)}; Max-Age={LASTS}; Path=/; HttpOnly; SameSite=Lax"
        return [(b"set-cookie", said.encode())]

    def _same_origin(self, headers: Headers, host: str) -> None:
        origin, site = headers.get("origin"), headers.get("sec-fetch-site", "same-origin")
        if (origin is not None and not self.names.same_origin(origin, host)) or site not in ("same-origin", "none"):
            raise Refused("this change was sent from another page than the workbench's own: it is not made")

    def _same_page(self, scope: MutableMapping[str, Any], headers: Headers) -> None:
        token = headers.get("x-fitwright-token") or scope["form"].get("token", "")
        if scope["path"] != "/pair" and not self.key.is_token(scope["session"], token):
            raise Refused("this page is from an earlier session: load it again, what you typed is kept")


def _status(wrong: Exception) -> int:
    return 403 if isinstance(wrong, Refused) else 413 if isinstance(wrong, TooMuch) else 400
