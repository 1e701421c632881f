"""The workbench in the browser: pages over what `assess` computes, on this machine or in the shop's own network."""

from fitwright.web.application import workbench_app
from fitwright.web.serving import serve

__all__ = ["serve", "workbench_app"]
