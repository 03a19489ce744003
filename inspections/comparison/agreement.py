"""What is the photo advice worth? What it said of opened cartons, against what receivers found in the same ones.

Unit of counting: one opened carton of a signed delivery with at least one photo of its prawns that was
answered. Of several photos, one that shows darkening is enough ("seen"); else one that shows none ("none
seen"); else "cannot tell". Of several answers to one photo, the newest counts. The receiver found black spot
when at least one piece of those looked at had it. A carton whose pieces were not looked at for black spot has
nothing to be compared with: it is counted apart, neither as "found" nor as "none".

Does not prove: a receiver who has read the advice may find what it said. Only cartons whose first advice came
after the receiver had signed are sure to be independent; they are counted by themselves too. A photo shows
some of the pieces, the receiver looked at others, so that the two cannot agree fully even if both are right.
Cartons of one delivery resemble each other, which makes every interval here a little too narrow (CV-9-93).

Pure: no Django, no rows. Wilson's interval: Wilson 1927 (``inspections.trade.intervals``).
"""
from collections.abc import Callable, Hashable, Iterable
from dataclasses import dataclass

from inspections.records.black_spot import BEYOND, NONE, WITHIN
from inspections.trade.intervals import wilson

SEEN, NONE_SEEN, CANNOT_TELL = "darkening_seen", "none_seen", "cannot_tell"
ANSWERS = (SEEN, NONE_SEEN, CANNOT_TELL)
#: As in the comparison of suppliers (CV-12-81; common practice, no source): below either, "too few to say".
MIN_CARTONS = 20
MIN_DELIVERIES = 5


@dataclass(frozen=True)
class Checked:
    """One opened carton whose photos were answered.

    Attributes
    ----------
    site, specification, species : hashable
        What it may be counted by.
    delivery : hashable
        Cartons of one delivery resemble each other, so deliveries are counted as well.
    answer : str
        One of ANSWERS: that of all its photos together (``answer_of``).
    found : str or None
        ``beyond`` or ``within``: black spot, beyond the limit or within it; ``none``; None when the pieces
        were not looked at for black spot.
    is_blind : bool
        The first advice came after the receiver had signed.
    """

    site: Hashable
    specification: Hashable
    species: Hashable
    delivery: Hashable
    answer: str
    found: str | None
    is_blind: bool


@dataclass(frozen=True)
class Share:
    """``count`` of ``of`` with its 95 % Wilson interval; shares 0 to 1, None when there is nothing to count."""

    count: int
    of: int
    share: float | None
    low: float | None
    high: float | None
    too_few: bool


@dataclass(frozen=True)
class Agreement:
    """Counts of some cartons, and what may be said from them.

    Attributes
    ----------
    table : dict of (answer, found) to int
        Found is ``beyond``, ``within`` or ``none``; all nine are there.
    cartons, deliveries : int
        Cartons in the table, and the deliveries that they came from.
    agreeing : Share
        Of the cartons where the advice told something: seen and found, or none seen and none found.
    right_flags : Share
        Of the cartons where darkening was seen: those with black spot (precision).
    flagged : Share
        Of the cartons with black spot: those where darkening was seen (sensitivity). "Cannot tell" counts as
        not flagged.
    flagged_beyond : Share
        The same of the cartons with black spot beyond the limit.
    wrong_flags : Share
        Of the cartons without black spot: those where darkening was seen.
    untold : Share
        Of all cartons in the table: "cannot tell".
    """

    table: dict[tuple[str, str], int]
    cartons: int
    deliveries: int
    agreeing: Share
    right_flags: Share
    flagged: Share
    flagged_beyond: Share
    wrong_flags: Share
    untold: Share


def answer_of(answers: Iterable[str]) -> str:
    """The answer of a carton from those of its photos; at least one.

    >>> answer_of(["cannot_tell", "none_seen", "darkening_seen"])
    'darkening_seen'
    >>> answer_of(["cannot_tell", "none_seen"])
    'none_seen'
    """
    return min(answers, key=ANSWERS.index)


def agreement(cartons: Iterable[Checked]) -> Agreement:
    """Count some cartons.

    Parameters
    ----------
    cartons : iterable of Checked
        Those without anything to compare with (``found`` None) are passed over.
    """
    known = [carton for carton in cartons if carton.found is not None]
    table = {(answer, found): 0 for answer in ANSWERS for found in (BEYOND, WITHIN, NONE)}
    for carton in known:
        table[carton.answer, carton.found] += 1
    deliveries = len({carton.delivery for carton in known})
    return Agreement(table, len(known), deliveries, **_shares(table, deliveries))


def _shares(table: dict[tuple[str, str], int], deliveries: int) -> dict[str, Share]:
    def number(answers: tuple = ANSWERS, found: tuple = (BEYOND, WITHIN, NONE)) -> int:
        return sum(table[answer, what] for answer in answers for what in found)

    spot, seen, told = (BEYOND, WITHIN), (SEEN,), (SEEN, NONE_SEEN)
    agreeing = number(seen, spot) + number((NONE_SEEN,), (NONE,))
    return {
        "agreeing": share(agreeing, number(told), deliveries),
        "right_flags": share(number(seen, spot), number(seen), deliveries),
        "flagged": share(number(seen, spot), number(found=spot), deliveries),
        "flagged_beyond": share(number(seen, (BEYOND,)), number(found=(BEYOND,)), deliveries),
        "wrong_flags": share(number(seen, (NONE,)), number(found=(NONE,)), deliveries),
        "untold": share(number((CANNOT_TELL,)), number(), deliveries),
    }


def share(count: int, of: int, deliveries: int) -> Share:
    """A share with its interval, and whether it is too small a number to say anything.

    Parameters
    ----------
    count, of : int
        ``0 <= count <= of``.
    deliveries : int
        Deliveries that all the cartons of the table came from.

    References
    ----------
    Wilson 1927; CV-12-81 for the smallest number (common practice, no source).

    Examples
    --------
    >>> one = share(3, 40, 9)                   # CV-9-08
    >>> round(one.low, 4), round(one.high, 4), one.too_few
    (0.0258, 0.1986, False)
    """
    if of == 0:
        return Share(count, of, None, None, None, True)
    low, high = wilson(count, of)
    return Share(count, of, count / of, low, high, of < MIN_CARTONS or deliveries < MIN_DELIVERIES)


def by_group(cartons: Iterable[Checked], group: Callable[[Checked], Hashable]) -> dict[Hashable, list[Checked]]:
    """The cartons of each group."""
    groups: dict[Hashable, list[Checked]] = {}
    for carton in cartons:
        groups.setdefault(group(carton), []).append(carton)
    return groups
