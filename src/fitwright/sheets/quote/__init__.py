"""The papers about money: the client's quote on one page, and the shop's own cost sheet."""

from fitwright.sheets.quote.writing import cost_pdf, quote_pdf, quote_pictures, write_cost_sheet, write_quote

__all__ = ["cost_pdf", "quote_pdf", "quote_pictures", "write_cost_sheet", "write_quote"]
