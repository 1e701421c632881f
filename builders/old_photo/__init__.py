"""Draws the old photo of the drying rack's example: a larger rack of the same kind in a room, whose sizes are known."""
