"""What the receiver found of black spot in an opened carton: the question that photo advice is measured by."""
from collections.abc import Mapping

BEYOND, WITHIN, NONE = "beyond", "within", "none"


def found_of(pieces: Mapping, looked_at: int | None, checks: Mapping) -> str | None:
    """What the receiver found in a carton.

    Parameters
    ----------
    pieces : mapping of str to int
        Pieces with ``black_spot`` (anywhere) and with ``black_spot_meat``; a key may be absent: not looked for.
    looked_at : int or None
        Pieces looked at.
    checks : mapping of str to str
        How the limits of the same names judged the carton: within, beyond, cannot_tell, not_checked.

    Returns
    -------
    str or None
        ``beyond`` or ``within`` where any piece had black spot, ``none`` where they were looked at for it and
        none had; None when they were not, or the numbers cannot be: nothing to compare with.
    """
    if not _is_count(looked_at) or looked_at == 0:
        return None
    numbers = {name: pieces[name] for name in ("black_spot", "black_spot_meat")
               if _is_count(pieces.get(name)) and pieces[name] <= looked_at}
    if any(numbers.values()):
        return BEYOND if "beyond" in (checks.get("black_spot"), checks.get("black_spot_meat")) else WITHIN
    return NONE if "black_spot" in numbers else None


def found_in(carton: Mapping, checks: Mapping) -> str:
    """The same of a carton as the document has it; empty instead of None, as it is kept in the row."""
    return found_of(carton.get("pieces") or {}, carton.get("looked_at"), checks or {}) or ""


def _is_count(value) -> bool:
    return isinstance(value, int) and not isinstance(value, bool) and value >= 0
