"""Words that dockets and lots are found by, and the rows that are written of them at signing.

People read a number from its beginning, from where letters turn into digits, or say its last three or four signs;
strokes, blanks and capitals they leave out. A part from the middle of a run of digits is not found.
"""
import re

from django.db import connection
from django.db.models import Q

from inspections.records.models import Delivery, DocketLine, LineLot, SearchWord

#: Letters in a row, or digits in a row, of any script.
_RUN = re.compile(r"[^\W\d_]+|\d+")
#: Endings of a number that people say.
ENDINGS = (3, 4)
MOST = 80


def key_of(text: str) -> str:
    """Letters and digits alone, capitals and strokes left out.

    >>> key_of("DN-5530 / b")
    'dn5530b'
    """
    return "".join(_RUN.findall(text.casefold()))[:MOST]


def words_of(text: str) -> set[str]:
    """What a number is found by the beginning of.

    >>> sorted(words_of("DN-5530"))
    ['530', '5530', 'dn5530']
    """
    runs = _RUN.findall(text.casefold())
    found = {"".join(runs[place:])[:MOST] for place in range(len(runs))}
    whole = key_of(text)
    return (found | {whole[-length:] for length in ENDINGS if len(whole) > length}) - {""}


def begins(text: str) -> Q:
    """A condition on search words: those that begin with what was typed; nothing where it holds no sign to look for."""
    key = key_of(text)
    if not key:
        return Q(pk__in=[])
    if connection.vendor == "sqlite":
        # LIKE takes no index here: the column compares by code point, LIKE does not
        return Q(word__gte=key, word__lt=key + chr(0x10FFFF))
    return Q(word__startswith=key)


def write_search_words(delivery: Delivery, lines: list[DocketLine]) -> None:
    """Rows for a delivery that is being signed, within its transaction."""
    lots = [lot for line, entry in zip(lines, delivery.document["lines"], strict=True) for lot in _lots(line, entry)]
    LineLot.objects.bulk_create(lots)
    words = [SearchWord(delivery=delivery, word=word) for word in sorted(words_of(delivery.docket_number))]
    words += [SearchWord(delivery=delivery, lot=lot, word=word) for lot in lots for word in sorted(words_of(lot.lot))]
    SearchWord.objects.bulk_create(words)


def _lots(line: DocketLine, entry: dict) -> list[LineLot]:
    """The lot of the docket and those of the labels; the same lot written otherwise is the same."""
    found: dict[str, LineLot] = {}
    if key := key_of(str(entry.get("lot") or "")):
        found[key] = LineLot(line=line, lot=str(entry["lot"]).strip()[:MOST], key=key, is_on_docket=True, labels=0)
    for carton in entry.get("cartons") or []:
        shown = str((carton.get("label") or {}).get("lot") or "").strip()[:MOST]
        if key := key_of(shown):
            lot = found.setdefault(key, LineLot(line=line, lot=shown, key=key, is_on_docket=False, labels=0))
            lot.labels += 1
    return list(found.values())
