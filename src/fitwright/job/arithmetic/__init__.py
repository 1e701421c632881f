"""Arithmetic on lengths as a job file has it: words to formula to quantity, by a small evaluator with bounds."""

from fitwright.job.arithmetic.evaluate import Quantity, counted, evaluate
from fitwright.job.arithmetic.fault import ArithmeticFault
from fitwright.job.arithmetic.formula import Formula, names_in, parse, read

__all__ = ["ArithmeticFault", "Formula", "Quantity", "counted", "evaluate", "names_in", "parse", "read"]
