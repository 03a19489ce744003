"""What is told of seals, links for suppliers, logger files and the worksheet."""
from typing import Annotated, Any, Literal, TypedDict

from msgspec import Meta

from inspections.describe import Moment, Sha256, Uuid
from inspections.records.answers.limits import Basis, Coded
from inspections.strict import Entries


class Seal(TypedDict):
    id: Uuid
    kind: Literal["delivery", "addendum", "logger"]
    subject_id: Uuid
    number: int
    content_sha256: Sha256
    previous_sha256: str | None
    sha256: Sha256
    signature: str
    public_key_id: str
    sealed_at: Moment


class SealsAnswer(TypedDict):
    seals: list[Seal]
    #: PEM, by id.
    public_keys: dict[str, str]


# ---- links
class EvidenceLink(TypedDict):
    """A link as the desk lists it; ``to_whom`` is a note of the one who made it."""

    id: Uuid
    delivery_id: Uuid
    created_by: str
    created_at: Moment
    expires_at: Moment
    revoked_at: Moment | None
    to_whom: str
    openings: int
    first_opened_at: Moment | None
    last_opened_at: Moment | None


class LinksAnswer(TypedDict):
    links: list[EvidenceLink]


class Squares(TypedDict):
    """A QR code: a path of squares in a square of ``size`` modules."""

    size: int
    path: str


class LastSeal(TypedDict):
    number: int
    sha256: Sha256


class NewEvidenceLink(EvidenceLink):
    """A link as it is told once, when it is made: nobody can ask for its address again."""

    url: str
    qr: Squares
    mail_to: str
    seal: LastSeal


class LinkAsked(Entries):
    """Days are 1 to 366, the note at most 120 characters: a sentence says so where they are not."""

    days: int = 60
    to_whom: str = ""


# ---- logger files
class UnreadRow(TypedDict):
    line: int
    code: str
    text: str


class LoggerFileRead(TypedDict):
    readings: int
    unit: str
    column: str
    unread: int
    unread_rows: list[UnreadRow]


class LoggerExcursion(TypedDict):
    from_s: float
    to_s: float
    minutes: float
    warmest_c: float
    text: str


class LoggerLimit(TypedDict):
    limit_c: float
    minutes: float
    minutes_text: str
    count: int
    names: list[str]
    basis: list[Basis]
    excursions: list[LoggerExcursion]


class LoggerLife(TypedDict):
    product: str
    goods: list[str]
    share: float
    days_at_18: float
    text: str
    table: str


_From = TypedDict("_From", {"from": str, "to": str})


class LoggerCounted(_From):
    from_s: float
    to_s: float
    minutes: float
    coldest_c: float
    warmest_c: float
    mean_kinetic_c: float
    gap_minutes: float
    limits: list[LoggerLimit]
    life: list[LoggerLife]


class LoggerExplained(TypedDict):
    method: str
    mean_kinetic: str
    mean_kinetic_basis: Basis
    life: str
    life_basis: Basis
    caution: str


class Stretch(TypedDict):
    from_s: float
    to_s: float
    text: str


class Shaded(Stretch):
    limit_c: float


class Mark(TypedDict):
    kind: Literal["left", "arrived"]
    at_s: float
    text: str


class Tick(TypedDict):
    at_s: float
    text: str
    day: str


class NamedLimit(TypedDict):
    limit_c: float
    text: str


Scale = TypedDict("Scale", {"from": float, "to": float, "step": float})


class LoggerPlot(TypedDict):
    """What the drawing shows, times in s, temperatures in °C; the server draws it."""

    from_s: float
    to_s: float
    stretches: list[list[tuple[float, float]]]
    scale: Scale
    is_cut: bool
    ticks: list[Tick]
    limits: list[NamedLimit]
    shaded: list[Shaded]
    gaps: list[Stretch]
    marks: list[Mark]


class LoggerReading(TypedDict):
    """What a logger's file was read to say; ``counted`` is null where no two readings lie on the way."""

    method: str
    file: LoggerFileRead
    remarks: list[Coded]
    counted: LoggerCounted | None
    summary: str
    explain: LoggerExplained
    plot: LoggerPlot


class LoggerFile(TypedDict):
    """A logger file; ``zone_assumed`` is empty when it tells its own, ``file`` is the address of it as it came."""

    id: Uuid
    delivery_id: Uuid
    file_name: str
    sha256: Sha256
    bytes: int
    at: Moment
    person: str
    zone_assumed: str
    answers: dict[str, str]
    method_version: str
    reading: LoggerReading
    file: str
    #: SVG of class ``phone`` and of class ``wide``.
    drawings: str
    #: The same file was read again later, with other answers.
    is_read_anew: bool


class LoggerAnswers(TypedDict, total=False):
    """Answers to what a file leaves open."""

    zone: str
    unit: str
    day_order: str
    column: str
    left_at: str


class LoggerFileSent(LoggerAnswers):
    """A form."""

    file: bytes


class LoggerFilesAnswer(TypedDict):
    rows: list[LoggerFile]


class LoggerChoice(TypedDict):
    value: str
    text: str


class LoggerQuestion(TypedDict):
    """What a file leaves open: one of unit, zone, day_order, column; the likeliest answer first."""

    name: str
    choices: list[LoggerChoice]


# ---- the worksheet: every number is text already, so that nothing is rounded twice
class Typed(TypedDict):
    name: str
    entered: str


class Sum(TypedDict):
    name: str
    sum: str
    value: str


class CheckRow(TypedDict):
    """A check against its limit; ``note`` says where the limit is from and whose bound it is."""

    check: str
    name: str
    number: str
    unit: str
    comparison: str
    limit: str
    state: Literal["within", "beyond", "cannot_tell"]
    severity: str
    code: str
    source: str
    words: str
    edition: str
    answer: str
    effect: str
    leads_to: str
    note: str


class Checks(TypedDict):
    made: list[CheckRow]
    #: Names of the checks that were not made.
    open: list[str]


class SheetCarton(TypedDict):
    position: int | None
    entries: list[Typed]
    sums: list[Sum]
    checks: Checks
    notes: list[str]
    is_defective: bool
    is_beyond_chance: bool
    because: list[str]


class Plan(TypedDict):
    name: str
    open: str
    accept: str
    source: str


class Tally(TypedDict):
    opened: str
    planned: str
    acceptance: str
    defective: str
    bad: str
    shown: str
    rejection: str
    total: str
    last: str
    answer: str
    source: str


class MustHave(TypedDict):
    name: str
    answer: str
    reason: str


class SheetStep(TypedDict):
    letter: str
    when: str
    suggestion: str
    answer: str
    because: str


class SheetDecision(TypedDict):
    words: str
    split: str
    reason: str
    departs: str


class SheetLine(TypedDict):
    """A line; without ``agrees`` the steps give another answer than the record, sealed under another edition."""

    number: int
    name: str
    ordered: list[Typed]
    entries: list[Typed]
    cartons: list[SheetCarton]
    sums: list[Sum]
    checks: Checks
    notes: list[str]
    plans: list[Plan]
    tally: Tally
    must: list[MustHave]
    steps: list[SheetStep]
    suggestion: str
    agrees: bool
    allowances: list[Sum]
    split: str
    decision: SheetDecision | None


class SheetVehicle(TypedDict):
    entries: list[Typed]
    checks: Checks


class Sheet(TypedDict):
    limits: str
    vehicle: SheetVehicle
    lines: list[SheetLine]


Events = Annotated[dict[str, Any], Meta(description="An EPCIS 2.0 document, as its published JSON schema has it.")]
