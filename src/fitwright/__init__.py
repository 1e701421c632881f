"""Fitwright: from a space, a photo and a shop to a one-off piece that fits."""

__version__ = "0.1.0"
