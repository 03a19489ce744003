"""Judgements of the receiving desk: pure functions and frozen dataclasses, one module a judgement.

Standard library only; mirrored file by file in ``frontend/src/trade`` and held to the
same vectors (``fixtures/vectors``). Float operations run in the same order in both.
"""
