"""Which photos of a folder are to be tried, and what is known of each.

Method: labels.csv in the folder has a heading row and one row for each photo, with the columns file, label (dark,
clean or not_prawn), species (FAO code), presentation and cooked (yes or no); truth_share (0 to 1) and further columns
may follow. A row that can't be used is told in a sentence with its line number, never dropped in silence.
"""

import csv
from dataclasses import dataclass
from pathlib import Path

LABELS = ("dark", "clean", "not_prawn")
COLUMNS = ("file", "label", "species", "presentation", "cooked")
# As frontend/src/trade and inspections/trade have them; written again because imaging imports neither.
PRESENTATIONS = ("HOSO", "HLSO", "EZP", "PTO", "PDTO", "PUD", "PD", "BTTY", "PPV")
_YES_NO = {"yes": True, "true": True, "1": True, "y": True, "no": False, "false": False, "0": False, "n": False}


class UnusableLabels(ValueError):
    """labels.csv as a whole can't be used; the message is a sentence for the person who made it."""


@dataclass(frozen=True, slots=True)
class LabelledPhoto:
    """One usable row.

    Attributes
    ----------
    path : pathlib.Path
    label : str
        dark, clean or not_prawn.
    species : str
        FAO code, or empty.
    presentation : str
        Trade code, or empty.
    is_cooked : bool
    truth_share : float or None
        Known dark share, 0 to 1.
    """

    path: Path
    label: str
    species: str
    presentation: str
    is_cooked: bool
    truth_share: float | None


@dataclass(frozen=True, slots=True)
class Problem:
    """What can't be used, where, and the sentence for it."""

    where: str
    sentence: str


def read_labels(folder: Path) -> tuple[list[LabelledPhoto], list[Problem]]:
    """The rows of labels.csv that can be used, and a problem for each that can't.

    Parameters
    ----------
    folder : pathlib.Path

    Returns
    -------
    tuple of list
        Photos in the order of the file, and problems.

    Raises
    ------
    UnusableLabels
        No folder, no labels.csv, not text, or a column missing.
    """
    rows = _rows(folder)
    photos, problems, seen = [], [], set()
    for line, row in rows:
        photo = _photo(folder, row, seen)
        if isinstance(photo, LabelledPhoto):
            photos.append(photo)
            seen.add(photo.path)
        else:
            problems.append(Problem(f"labels.csv, line {line}", photo))
    return photos, problems


def _rows(folder: Path) -> list[tuple[int, dict[str, str]]]:
    file = folder / "labels.csv"
    if not folder.is_dir():
        raise UnusableLabels(f"There is no folder {folder}. Nothing was tried. Give the folder that holds the photos.")
    if not file.is_file():
        raise UnusableLabels(
            f"{folder} holds no labels.csv. Nothing was tried. "
            f"Write one with the columns {', '.join(COLUMNS)}, one row for each photo."
        )
    try:
        with file.open(encoding="utf-8-sig", newline="") as text:
            reader = csv.DictReader(text, restval="")
            missing = [name for name in COLUMNS if name not in (reader.fieldnames or ())]
            if missing:
                raise UnusableLabels(
                    f"labels.csv has no column {', '.join(missing)}. Nothing was tried. "
                    f"Its first row must name {', '.join(COLUMNS)}."
                )
            return [(reader.line_num, row) for row in reader]
    except (UnicodeDecodeError, csv.Error) as fault:
        raise UnusableLabels(
            "labels.csv is not a table in plain text (UTF-8, commas). Nothing was tried. Save it as CSV again."
        ) from fault


def _photo(folder: Path, row: dict[str, str], seen: set[Path]) -> LabelledPhoto | str:
    """The photo of a row, or the sentence that says why it can't be used."""
    cells = {name: (row.get(name) or "").strip() for name in (*COLUMNS, "truth_share")}
    path = folder / cells["file"]
    cooked = _YES_NO.get(cells["cooked"].lower())
    label, presentation = cells["label"].lower(), cells["presentation"].upper()
    complaint = _complaint(folder, path, cells, label, presentation, seen)
    if complaint:
        return complaint
    if cooked is None and label != "not_prawn":
        return f"The row for {cells['file']} says {cells['cooked'] or 'nothing'} under cooked. Write yes or no."
    share = _share(cells["truth_share"])
    if isinstance(share, str):
        return share
    return LabelledPhoto(path, label, cells["species"].upper(), presentation, bool(cooked), share)


def _complaint(
    folder: Path, path: Path, cells: dict[str, str], label: str, presentation: str, seen: set[Path]
) -> str | None:
    if not cells["file"]:
        return "The row names no file. Write the name of the photo under file."
    if not path.resolve().is_relative_to(folder.resolve()):
        return f"{cells['file']} lies outside the folder, so it was not opened. Put the photo into the folder."
    if not path.is_file():
        return f"There is no photo {cells['file']} in the folder. Check the name in the row."
    if path in seen:
        return f"{cells['file']} stands in an earlier row too and counts once. Take one of the rows out."
    if label not in LABELS:
        return f"The label of {cells['file']} is {cells['label'] or 'empty'}. Write one of {', '.join(LABELS)}."
    if presentation and presentation not in PRESENTATIONS:
        return f"The presentation {cells['presentation']} is not known. Write one of {', '.join(PRESENTATIONS)}."
    return None


def _share(text: str) -> float | str | None:
    if not text:
        return None
    try:
        share = float(text)
    except ValueError:
        share = -1.0
    if not 0 <= share <= 1:
        return f"The truth_share {text} is not a share. Write a number from 0 to 1, or leave it empty."
    return share
