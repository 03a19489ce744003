"""The grey pictures of fixtures/vectors/gate.json, drawn by the same rules as in camera/gate.test.ts."""

import numpy as np


def drawn(picture: dict) -> np.ndarray:
    """Grey levels, uint8, of a vector's picture."""
    y, x = np.mgrid[0 : picture["rows"], 0 : picture["cols"]].astype(np.int64)
    a, b, c = picture["a"], picture["b"], picture["c"]
    rules = {
        "flat": lambda: np.full_like(x, a),
        "checks": lambda: np.where((x // a + y // a) % 2 == 0, b, c),
        "ramp": lambda: np.minimum(255, (x * a + y * b) // c),
        "hash": lambda: np.minimum(255, b + (x * 73 + y * 151 + ((x * y) % 97) * 31) % a),
        "soft checks": lambda: np.minimum(255, b + (c * (_fold(x, a) + _fold(y, a))) // (2 * a)),
    }
    return rules[picture["rule"]]().astype(np.uint8)


def _fold(x: np.ndarray, a: int) -> np.ndarray:
    return np.minimum(x % (2 * a), 2 * a - x % (2 * a))
