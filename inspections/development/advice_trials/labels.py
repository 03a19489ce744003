"""Which photos of a folder are to be tried, and what a person saw on each.

Method: a CSV with a heading row and one row a photo: file and darkening (marked, slight, none, naturally-dark,
not-prawn, unclear). May follow: source (else the first word of the file's name), kind (raw, cooked, live),
presentation, and x and y of the darkened place as shares of the width and height. A row that can't be used is told in
a sentence.
"""

import csv
from dataclasses import dataclass
from pathlib import Path

LABELS = ("marked", "slight", "none", "naturally-dark", "not-prawn", "unclear")
COLUMNS = ("file", "darkening")


class UnusableLabels(ValueError):
    """The table as a whole can't be used; the message is a sentence for the person who made it."""


@dataclass(frozen=True, slots=True)
class LabelledPhoto:
    """One usable row; `place` is where it is darkened, as shares of width and height, None when not told."""

    path: Path
    label: str
    source: str
    kind: str
    presentation: str
    place: tuple[float, float] | None


def read_labels(folder: Path, table: Path | None = None) -> tuple[list[LabelledPhoto], list[str]]:
    """The rows that can be used, and a sentence for each that can't.

    Parameters
    ----------
    folder : pathlib.Path
    table : pathlib.Path, optional
        labels.csv in the folder when it is not given.

    Raises
    ------
    UnusableLabels
        No folder, no table, not text, or a column missing.
    """
    photos: list[LabelledPhoto] = []
    problems: list[str] = []
    for line, row in _rows(folder, table or folder / "labels.csv"):
        photo = _photo(folder, row, {one.path for one in photos})
        if isinstance(photo, str):
            problems.append(f"line {line}: {photo}")
        else:
            photos.append(photo)
    return photos, problems


def _rows(folder: Path, table: Path) -> list[tuple[int, dict[str, str]]]:
    if not folder.is_dir():
        raise UnusableLabels(f"There is no folder {folder}. Nothing was tried. Give the folder that holds the photos.")
    if not table.is_file():
        raise UnusableLabels(
            f"There is no table {table}. Nothing was tried. "
            f"Write one with the columns {', '.join(COLUMNS)}, one row for each photo."
        )
    try:
        with table.open(encoding="utf-8-sig", newline="") as text:
            reader = csv.DictReader(text, restval="")
            missing = [name for name in COLUMNS if name not in (reader.fieldnames or ())]
            if missing:
                raise UnusableLabels(f"{table.name} has no column {', '.join(missing)}. Nothing was tried. Add it.")
            return [(reader.line_num, row) for row in reader]
    except (UnicodeDecodeError, csv.Error) as fault:
        raise UnusableLabels(
            f"{table.name} is not a table in plain text (UTF-8, commas). Nothing was tried. Save it as CSV again."
        ) from fault


def _photo(folder: Path, row: dict[str, str], seen: set[Path]) -> LabelledPhoto | str:
    """The photo of a row, or the sentence that says why it can't be used."""
    told = {name: (row.get(name) or "").strip() for name in (*COLUMNS, "source", "kind", "presentation", "x", "y")}
    name, label, path = told["file"], told["darkening"].lower(), folder / told["file"]
    if not name:
        return "The row names no file. Write the name of the photo under file."
    if not path.resolve().is_relative_to(folder.resolve()):
        return f"{name} lies outside the folder, so it was not opened. Put the photo into the folder."
    if not path.is_file():
        return f"There is no photo {name} in the folder. Check the name in the row."
    if path in seen:
        return f"{name} stands in an earlier row too and counts once. Take one of the rows out."
    if label not in LABELS:
        return f"The darkening of {name} is {label or 'empty'}. Write one of {', '.join(LABELS)}."
    try:
        place = (float(told["x"]), float(told["y"])) if told["x"] and told["y"] else None
    except ValueError:
        return f"The place of {name} is no number. Write x and y as shares of width and height, 0 to 1."
    source = told["source"] or path.stem.split("-")[0]
    return LabelledPhoto(path, label, source, told["kind"], told["presentation"], place)
