"""What the server has at hand for every request."""

from __future__ import annotations

from dataclasses import dataclass

from jinja2 import Environment

from fitwright.web.desk import Desk
from fitwright.web.folder import JobsFolder
from fitwright.web.guard import Key, Pairing
from fitwright.web.making import Makings
from fitwright.web.news import News


@dataclass(frozen=True)
class Workbench:
    """The folder, the computing, the news to other devices, what is being made, the templates, and who is let in."""

    folder: JobsFolder
    desk: Desk
    news: News
    makings: Makings
    templates: Environment
    key: Key
    pairing: Pairing | None

    def close(self) -> None:
        """Stop what is under way."""
        self.makings.close()
        self.desk.close()
