"""Sessions of devices: a signed cookie each, and a token in every form that only the same session can have."""

from __future__ import annotations

import hashlib
import hmac
import os
import secrets
import time
from dataclasses import dataclass
from pathlib import Path

DAYS = 30
LASTS = DAYS * 24 * 3600
KEY_BYTES = 32


@dataclass(frozen=True)
class Session:
    """One device: its random name, whether it was paired, and when the session began [s since 1970]."""

    name: str
    paired: bool
    began: int


class Key:
    """The secret that cookies and tokens are signed with; kept in a file so that a restart forgets nobody."""

    def __init__(self, secret: bytes) -> None:
        self._secret = secret

    @classmethod
    def kept_in(cls, folder: Path, forget: bool = False) -> Key:
        """The key in a folder, made if missing; forget: a new one, which ends every session."""
        path = folder / "key"
        if not forget and path.is_file() and len(path.read_bytes()) == KEY_BYTES:
            return cls(path.read_bytes())
        folder.mkdir(mode=0o700, exist_ok=True)
        secret = secrets.token_bytes(KEY_BYTES)
        draft = folder / f".key.{os.getpid()}"
        with os.fdopen(os.open(draft, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "wb") as file:
            file.write(secret)
        os.replace(draft, path)
        return cls(secret)

    def begin(self, paired: bool) -> Session:
        """A new session."""
        return Session(secrets.token_urlsafe(18), paired, int(time.time()))

    def cookie(self, session: Session) -> str:
        """The session as the value of a cookie."""
        said = f"{session.name}.{int(session.paired)}.{session.began}"
        return f"{said}.{self._sign('session', said)}"

    def session(self, cookie: str) -> Session | None:
        """The session of a cookie; None when it was not signed here or has run out."""
        said, _, signature = cookie.rpartition(".")
        if not hmac.compare_digest(signature.encode(), self._sign("session", said).encode()):
            return None
        name, paired, began = said.split(".")
        session = Session(name, paired == "1", int(began))
        return session if time.time() < session.began + LASTS else None

    def token(self, session: Session) -> str:
        """What a form of this session carries."""
        return self._sign("form", session.name)

    def is_token(self, session: Session, token: str) -> bool:
        """Whether a form came from a page of this session."""
        return hmac.compare_digest(self.token(session).encode(), token.encode())

    def _sign(self, use: str, said: str) -> str:
        return hmac.new(self._secret, f"{use}:{said}".encode(), hashlib.sha256).hexdigest()
