"""Do the marks and the label agree with the species that was ordered?

Method: a table of species with FAO codes, names, marks and what each is mistaken for; a short key asks two
to four questions, each the one that parts the remaining candidates best, and narrows to candidates. The
answer is "marks agree", "do not agree" or "unsure", never "is" (CV-7-34). Split-genus names on labels count
as the same species (FAO keeps Penaeus). Another species than ordered is a substitution: stated on the label
it is a plain fact and the line is refused, seen in the marks it is a doubt and the line is held (CV-12-24).
Where the FAO code of a species is not known here the table keeps it under a house key ("AU-..."), which no label
carries; a code on such a label that the table does not know settles nothing, and the name decides.
Does not hold: for peeled meat, which shows nothing reliable (CV-7-33), nor on any single mark (U-19).
Sources: FAO ASFIS list 2024 (read); marks as each row of ``species.json`` says.
"""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

from .carton_facts import CartonFacts
from .findings import BEYOND, CANNOT_TELL, WITHIN, Finding, Judged
from .limits import Limits
from .quantities import Unusable

_CODE = re.compile(r"[A-Z]{3}")
_DATA = Path(__file__).parent / "data"
_BLANKS = " \t\r\n"


class UnusableAnswer(Unusable):
    """An answer to the key that its question does not have (code KEY-01)."""


def _table() -> dict[str, Any]:
    with open(_DATA / "species.json", encoding="utf-8") as file:
        table: dict[str, Any] = json.load(file)
    return table


TABLE: dict[str, Any] = _table()
BY_CODE: dict[str, dict[str, Any]] = {species["code"]: species for species in TABLE["species"]}
MARKS: dict[str, dict[str, Any]] = TABLE["marks"]
KEY: list[dict[str, Any]] = TABLE["key"]


def ascii_lower(text: str) -> str:
    """Lower case of the letters A to Z only, the same in both runtimes."""
    return "".join(chr(ord(sign) + 32) if "A" <= sign <= "Z" else sign for sign in text)


def species_code(text: str) -> str:
    """An FAO three-letter code as it should be written, or "" when it is none.

    Examples
    --------
    >>> species_code("pnv "), species_code("PN1")        # CV-7-36
    ('PNV', '')
    """
    upper = "".join(chr(ord(sign) - 32) if "a" <= sign <= "z" else sign for sign in text.strip(_BLANKS))
    return upper if _CODE.fullmatch(upper) else ""


def _names() -> dict[str, str]:
    names: dict[str, str] = {}
    for species in TABLE["species"]:
        for name in (species["scientific_name"], *species["split_names"]):
            names[ascii_lower(name)] = species["code"]
    return names


_CODE_BY_NAME = _names()


def code_of_name(scientific_name: str) -> str:
    """FAO code of a scientific name, with the broad or the split genus; "" when it is not in the table.

    Examples
    --------
    >>> code_of_name("Litopenaeus  vannamei"), code_of_name("Penaeus vannamei")
    ('PNV', 'PNV')
    """
    words = [part for part in re.split(r"[ \t\r\n]+", ascii_lower(scientific_name)) if part]
    return _CODE_BY_NAME.get(" ".join(words), "")


def candidates(answers: dict[str, Any]) -> list[str]:
    """Species that the answers leave possible; a trait that varies or is not known excludes nothing.

    Parameters
    ----------
    answers : dict
        Trait of the key to its answer value; None is "not looked at".

    Returns
    -------
    list of str
        FAO codes in the order of the table.

    Raises
    ------
    UnusableAnswer
        KEY-01: a trait or an answer that the key does not have.
    """
    for trait, value in answers.items():
        if value is not None and not _is_answer(trait, value):
            raise UnusableAnswer("KEY-01", {"trait": trait})
    return [species["code"] for species in TABLE["species"] if _fits(species, answers)]


def _is_answer(trait: str, value: Any) -> bool:
    """Whether a question of the key has this answer (True is not 1 here)."""
    options = [option for row in KEY if row["trait"] == trait for option in row["answers"].values()]
    return any(type(option) is type(value) and option == value for option in options)


def _fits(species: dict[str, Any], answers: dict[str, Any]) -> bool:
    for trait, value in answers.items():
        own = species["traits"][trait]
        if value is not None and own is not None and own != value:
            return False
    return True


def _largest_rest(question: dict[str, Any], answers: dict[str, Any]) -> int:
    """How many candidates the least helpful answer would leave."""
    return max(len(candidates({**answers, question["trait"]: value})) for value in question["answers"].values())


def next_question(answers: dict[str, Any], presentation: str) -> dict[str, Any] | None:
    """The question that parts the remaining candidates best, or None when there is none to ask.

    Parameters
    ----------
    answers : dict
        Trait to answer so far; None counts as asked.
    presentation : str
        Trade code; peeled goods get no question (CV-7-33), headless ones none about the head.

    Returns
    -------
    dict or None
        A row of the key. At most four questions are asked.
    """
    rest = len(candidates(answers))
    if presentation not in TABLE["shell_on"] or len(answers) >= TABLE["max_questions"] or rest < 2:
        return None
    has_head = presentation in TABLE["head_on"]
    open_questions = [row for row in KEY if row["trait"] not in answers and (has_head or row["view"] != "head_on")]
    best, best_rest = None, rest
    for row in open_questions:
        left = _largest_rest(row, answers)
        if left < best_rest:
            best, best_rest = row, left
    return best


def marks_to_check(code: str, presentation: str) -> list[str]:
    """Mark ids worth looking at for a declared species, those of the head first when it is on."""
    species = BY_CODE.get(code)
    if species is None or presentation not in TABLE["shell_on"]:
        return []
    head = species["head_on"] if presentation in TABLE["head_on"] else []
    return [*head, *species["headless"]]


def shown_name(code: str) -> str:
    """English name with the FAO code, the name alone where that is not known, or the code alone.

    Examples
    --------
    >>> shown_name("ENS"), shown_name("AU-CORAL"), shown_name("XYZ")
    ('Endeavour shrimp (ENS)', 'Australian coral prawn', 'XYZ')
    """
    species = BY_CODE.get(code)
    if species is None:
        return code
    return f"{species['name']} ({code})" if species_code(code) else str(species["name"])


def judge_species(carton: CartonFacts, ordered: str, limits: Limits) -> Judged:
    """Label and marks against the species that was ordered.

    Parameters
    ----------
    carton : CartonFacts
    ordered : str
        FAO code of the specification.
    limits : Limits

    Returns
    -------
    Judged
        Checks ``species`` (label) and ``marks``.
    """
    judged = Judged()
    _judge_label(judged, carton, ordered, limits)
    facts = {"ordered": shown_name(ordered)}
    if carton.marks is None:
        judged.leave("marks")
    elif carton.marks == "unsure":
        judged.checks["marks"] = CANNOT_TELL
        judged.findings.append(Finding("SPECIES-UNSURE", limits["species.unsure"], facts=facts))
    else:
        judged.see("marks", carton.marks == "disagree", "SPECIES-MARKS", limits["species.marks"], facts)
    return judged


def _judge_label(judged: Judged, carton: CartonFacts, ordered: str, limits: Limits) -> None:
    label = carton.label
    if label is None or (label.species_code == "" and label.scientific_name == ""):
        judged.leave("species")
        return
    coded = label.species_code if label.species_code in BY_CODE else species_code(label.species_code)
    if not species_code(ordered) and coded not in BY_CODE:
        coded = ""
    stated = [code for code in (coded, code_of_name(label.scientific_name)) if code]
    if not stated:
        judged.checks["species"] = CANNOT_TELL
        return
    others = [code for code in stated if code != ordered]
    judged.checks["species"] = BEYOND if others else WITHIN
    if others:
        facts = {"found": shown_name(others[0]), "ordered": shown_name(ordered)}
        judged.findings.append(Finding("SPECIES-LABEL", limits["species.label"], facts=facts))
