"""Who may ask what: addresses, sessions, pairing, tokens, limits and headers, before any page is reached."""

from fitwright.web.guard.gate import Gate
from fitwright.web.guard.pairing import Pairing
from fitwright.web.guard.sessions import Key, Session

__all__ = ["Gate", "Key", "Pairing", "Session"]
