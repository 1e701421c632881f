"""The shop packet: one PDF set for the shop floor, and the drawings, solids and lists that go with it."""

from fitwright.sheets.packet.folder import PacketError
from fitwright.sheets.packet.typesetting import TypesettingError
from fitwright.sheets.packet.writing import PaperError, Written, write_packet

__all__ = ["PacketError", "PaperError", "TypesettingError", "Written", "write_packet"]
