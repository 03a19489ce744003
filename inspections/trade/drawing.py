"""Which cartons to open: a seeded random draw, spread over the layers of the pallet.

The seed is text that stands on the record, so anyone can draw again and get the same cartons.
Its UTF-16 code units are hashed (FNV-1a, 32 bit, three times with different first words) into
the state of the small generator sfc32; integers below n are taken without bias by rejection.
Positions count from 1, layer after layer. Not for secrets: a known seed is the point.
Sources: FNV-1a by Fowler, Noll and Vo; sfc32 by Doty-Humphrey (PractRand).
"""

from collections.abc import Iterator

from .quantities import UnusablePlan

_MASK = 0xFFFFFFFF
FNV_START = 0x811C9DC5
FNV_PRIME = 0x01000193
_WARM_UP = 12


def fnv1a(data: bytes, start: int = FNV_START) -> int:
    """FNV-1a hash, 32 bit.

    >>> hex(fnv1a(b"foobar"))       # published with the algorithm
    '0xbf9cf968'
    """
    value = start
    for byte in data:
        value = ((value ^ byte) * FNV_PRIME) & _MASK
    return value


def random_words(seed: str) -> Iterator[int]:
    """Endless 32-bit words from a seed text (sfc32 after 12 rounds)."""
    data = seed.encode("utf-16-le", "surrogatepass")
    a = fnv1a(data)
    b = fnv1a(data, a)
    c = fnv1a(data, b)
    counter = 1
    rounds = 0
    while True:
        word = (a + b + counter) & _MASK
        counter = (counter + 1) & _MASK
        a = b ^ (b >> 9)
        b = (c + (c << 3)) & _MASK
        c = (((c << 21) | (c >> 11)) + word) & _MASK
        rounds = rounds + 1
        if rounds > _WARM_UP:
            yield word


def random_below(words: Iterator[int], number: int) -> int:
    """An unbiased integer from 0 to number - 1; words beyond the last full multiple are passed over."""
    end = 0x100000000 - 0x100000000 % number
    word = next(words)
    while word >= end:
        word = next(words)
    return word % number


def layer_sizes(lot: int, layers: int) -> list[int]:
    """Cartons in each layer, as even as can be, the larger layers first.

    >>> layer_sizes(20, 3)
    [7, 7, 6]
    """
    return [lot // layers + (1 if i < lot % layers else 0) for i in range(layers)]


def draw_positions(lot: int, n: int, seed: str, layers: int = 1) -> list[int]:
    """Positions of the cartons to open.

    Each layer gives the same number; what is left over falls on layers drawn by chance among those
    that have a carton to spare. Inside a layer every carton is as likely as another.

    Parameters
    ----------
    lot, n : int
        Cartons, and cartons to open; 0 <= n <= lot.
    seed : str
        Text on the record, e.g. the id of the docket line.
    layers : int
        Layers of the pallet, 1 or more; more layers than cartons count as one carton each.

    Returns
    -------
    list of int
        n different positions, 1 to lot, ascending.

    Raises
    ------
    UnusablePlan
        SAMPLE-04 numbers that don't fit together; SAMPLE-05 no layer.
    """
    if lot < 1 or not 0 <= n <= lot:
        raise UnusablePlan("SAMPLE-04", {"lot": lot, "bad": 0, "opened": n})
    if layers < 1:
        raise UnusablePlan("SAMPLE-05", {"layers": layers})
    words = random_words(seed)
    sizes = layer_sizes(lot, min(layers, lot))
    shares = [n // len(sizes)] * len(sizes)
    roomy = [place + 1 for place, size in enumerate(sizes) if size > shares[place]]
    for layer in _take(words, roomy, n % len(sizes)):
        shares[layer - 1] += 1
    positions, first = [], 1
    for size, share in zip(sizes, shares, strict=True):
        positions += _take(words, list(range(first, first + size)), share)
        first = first + size
    return sorted(positions)


def draw_more(lot: int, opened: list[int], n: int, seed: str) -> list[int]:
    """Positions of a second stage: drawn by the same seed, with " 2" behind it, from the cartons not opened yet.

    Parameters
    ----------
    lot, n : int
        Cartons, and further cartons to open; where fewer are left, all of them.
    opened : list of int
        Positions opened already.
    seed : str
        Seed of the first draw.

    Examples
    --------
    >>> draw_more(20, [4, 15, 17], 3, "DN-5530/1")
    [3, 14, 16]
    """
    left = [position for position in range(1, lot + 1) if position not in opened]
    return sorted(_take(random_words(seed + " 2"), left, min(n, len(left))))


def _take(words: Iterator[int], items: list[int], number: int) -> list[int]:
    """``number`` of the items by chance, each once (Fisher and Yates, stopped early)."""
    for i in range(number):
        j = i + random_below(words, len(items) - i)
        items[i], items[j] = items[j], items[i]
    return items[:number]
