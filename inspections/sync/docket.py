"""When two docket numbers are one."""
import unicodedata

#: Unicode categories of dashes, blanks and signs that do not show.
PASSED_OVER = frozenset({"Pd", "Zs", "Cc", "Cf"})


def docket_key(number: str) -> str:
    """A docket number as two people would agree it is the same: without case, blanks and dashes.

    Examples
    --------
    >>> docket_key(" dn–55 30 ") == docket_key("DN-5530")
    True
    """
    folded = unicodedata.normalize("NFKC", number).casefold()
    kept = (sign for sign in folded if unicodedata.category(sign) not in PASSED_OVER and sign != "−")
    return "".join(kept)[:200]
