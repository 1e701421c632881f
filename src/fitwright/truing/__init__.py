"""Readings, and what follows from them."""
