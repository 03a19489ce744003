"""A worksheet from which anybody can recompute a verdict with pencil and paper.

For every line, in order: what was entered, as it was typed; the numbers derived from it, each with the sum that
gives it; each check against its limit; whether the carton counts as defective; the tally against the
acceptance number; the steps that lead to the suggestion; what a person decided. Everything is text as it is
printed, so that the page, the desk and the test read the same.
"""
from inspections.evidence.worksheet.sheet import worksheet_of

__all__ = ["worksheet_of"]
