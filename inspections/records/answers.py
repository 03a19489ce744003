"""What is told of deliveries, orders, lots, photos and what is kept by hand. None is "not known", never zero."""
from typing import Annotated, Any, Literal, NotRequired, TypedDict

from msgspec import Meta

from inspections.describe import Day, Moment, Sha256, Uuid
from inspections.people.answers import MarketName, Named
from inspections.records.shape.delivery import InspectionDocument
from inspections.records.shape.parts import Reading

Outcome = Annotated[Literal["accept", "accept_with_allowance", "hold", "reject"], Meta(title="DecisionKind")]
Suggested = Annotated[
    Literal["accept", "accept_with_allowance", "hold", "reject", "not_yet"], Meta(title="Suggestion")
]
DeliveryState = Annotated[Literal["signed", "put_away"], Meta(title="DeliveryState")]
Severity = Annotated[Literal["critical", "major", "minor", "note"], Meta(title="Severity")]
Sense = Annotated[Literal["at_most", "below", "at_least", "above", "none"], Meta(title="Sense")]
Check = Annotated[Literal["within", "beyond", "not_checked", "cannot_tell"], Meta(title="Check")]
Step = Annotated[Literal["a", "b", "c", "d", "e", "f", "g"], Meta(title="Step")]
AdviceAnswer = Literal["darkening_seen", "none_seen", "cannot_tell", "look_here", "finding_first", "switched_off"]


#: Not in what an earlier edition of the judgement sealed; the present one never leaves it out.
LATER = Meta(extra_json_schema={"x-written": "always"})
#: Words whose known ones stand in the schema of documents.
Presentation = Annotated[str, Meta(extra_json_schema={"x-type": "Presentation"})]
GoodsState = Annotated[str, Meta(extra_json_schema={"x-type": "State"})]
Method = Annotated[str, Meta(extra_json_schema={"x-type": "Method"})]
PlanName = Annotated[str, Meta(extra_json_schema={"x-type": "PlanName"})]


class Coded(TypedDict):
    code: str
    text: str


# ---- what is bought, and the limits it is judged by
class Basis(TypedDict):
    source: str
    known: Literal["read", "from_memory", "common_practice", "computed"]
    cv: str
    words: str
    edition: NotRequired[str]


class Limit(TypedDict):
    code: str
    bound: float | None
    unit: str
    sense: Sense
    severity: Severity
    basis: Basis


class LimitSet(TypedDict):
    id: Uuid
    name: str
    version: int
    default_plan: PlanName
    limits: list[Limit]


class LimitSetVersion(TypedDict):
    id: Uuid
    name: str
    version: int
    created_at: Moment
    created_by: str | None
    is_current: bool


class LimitsAnswer(TypedDict):
    current: LimitSet | None
    versions: list[LimitSetVersion]


class Agreed(TypedDict):
    """What was agreed of goods."""

    species_code: str
    presentation: Presentation
    state: GoodsState
    grade: str
    carton_net_g: float
    units_per_carton: int
    declared_glaze_percent: float | None
    origin: list[str]
    method: Method | None
    market: MarketName
    min_life_share: float | None
    advisory: bool
    pack: NotRequired[Literal["lined_carton", "sealed_bags"] | None]
    overrides: dict[str, float]


class Specification(Agreed):
    """One version of what is bought."""

    id: Uuid
    specification_id: Uuid
    version: int
    code: str
    name: str


class SpecificationsAnswer(TypedDict):
    rows: list[Specification]


class AdviceSwitch(TypedDict):
    """Whether photo advice is on for a specification; the version that set it so, who wrote that and when."""

    specification_id: Uuid
    code: str
    name: str
    version: int
    is_on: bool
    since_version: int
    by: str | None
    at: Moment


# ---- the judgement, as it was kept at signing
class Reason(TypedDict):
    """Why something is as suggested; ``carton`` is None when it is the line's or the vehicle's."""

    code: str
    severity: Severity
    carton: int | None
    measured: float | None
    unit: str | None
    bound: float | None
    sense: Sense | None
    limit: str | None
    basis: Basis | None
    facts: dict[str, Any]
    text: str
    #: These three came with edition 3.
    whose: NotRequired[Annotated[Literal["ordered", "published", "house"], LATER]]
    acts_on: NotRequired[Annotated[str, LATER]]
    leads_to: NotRequired[Annotated[str, LATER]]


class CartonVerdict(TypedDict):
    carton_id: str
    position: int | None
    defective: bool
    reasons: list[Reason]
    checks: dict[str, Check]
    derived: dict[str, float | None]


class Allowance(TypedDict):
    basis: Literal["short_weight", "short_cartons", "label_weight", "grade", "quality", "uniformity"]
    quantity: float
    unit: Literal["kg", "cartons", "percent"]
    formula: str


class SamplingShown(TypedDict):
    lot: int | None
    opened: int
    planned: int | None
    acceptance: int
    defective: int
    upper_bad: int | None
    miss_chance: float | None
    rejection: NotRequired[Annotated[int, LATER]]
    total: NotRequired[Annotated[int, LATER]]
    last_acceptance: NotRequired[Annotated[int, LATER]]


class NextStep(TypedDict):
    kind: Literal["open", "sort", "probe"]
    cartons: int
    positions: list[int]
    if_clean: Suggested
    if_bad: Suggested
    text: str


class LeftOutShown(TypedDict):
    check: str
    reason: str


class Split(TypedDict):
    accepted: int
    refused: int
    held: int


class LineVerdict(TypedDict):
    line_id: str
    suggestion: Suggested
    step: Step
    reasons: list[Reason]
    needed: list[str]
    left_out: NotRequired[Annotated[list[LeftOutShown], LATER]]
    not_checked: list[str]
    next: NextStep | None
    cartons: list[CartonVerdict]
    sampling: SamplingShown
    allowance: Allowance | None
    allowances: list[Allowance]
    suggested_split: Split | None
    wording: str


class Unusable(TypedDict):
    path: str
    code: str
    facts: dict[str, Any]


class VehicleVerdict(TypedDict):
    reasons: list[Reason]


class Judgement(TypedDict):
    judgement_version: int
    limits_id: str
    unusable: list[Unusable]
    vehicle: VehicleVerdict
    lines: list[LineVerdict]
    wording: str


class Difference(TypedDict):
    """A place where the phone's judgement and the server's part."""

    path: str
    phone: Any
    server: Any


# ---- photos and the advice on them
class Mean(TypedDict):
    mean: float
    pieces: int


class AdvicePictures(TypedDict, total=False):
    overlay: str | None
    histogram: str | None
    thumb: str


class Advice(AdvicePictures):
    """What the photo advisory says; ``share`` (0 to 1) is of methods that gave a share of the surface."""

    answer: AdviceAnswer
    frames: list[Any]
    reasons: list[Coded]
    method_version: NotRequired[str | None]
    pieces: NotRequired[int | None]
    dark_pieces: NotRequired[int | None]
    at_head: NotRequired[int | None]
    length_mm: NotRequired[Mean | None]
    share: NotRequired[float | None]
    share_low: NotRequired[float | None]
    share_high: NotRequired[float | None]
    where: NotRequired[list[str]]


class EarlierAdvice(TypedDict):
    """An answer that a later one stands beside."""

    id: Uuid
    method_version: str
    answer: AdviceAnswer
    share: float | None
    share_low: float | None
    share_high: float | None
    pieces: int | None
    dark_pieces: int | None
    at: Moment
    overlay: str | None


class DeskPhoto(TypedDict):
    """A photo of a delivery; ``unreadable`` says why nothing can be shown, ``earlier`` is newest first."""

    id: str
    sha256: Sha256
    purpose: str
    line_id: str | None
    carton_id: str | None
    taken_at: str | None
    is_stored: bool
    unreadable: str | None
    advice: Advice | None
    earlier: list[EarlierAdvice]


# ---- deliveries
class LineRow(TypedDict):
    number: int
    specification: str
    suggested: Suggested
    decided: Outcome
    departed_because: str
    accepted: int
    refused: int
    held: int


class DeliveryRow(TypedDict):
    id: Uuid
    site: Named
    supplier: Named
    docket_number: str
    arrived_at: Moment
    signed_at: Moment
    receiver: str
    state: DeliveryState
    is_demo: bool
    differs: bool
    lines: list[LineRow]


class DeliveryPage(TypedDict):
    page: int
    pages: int
    count: int
    rows: list[DeliveryRow]


class OrderOfDelivery(TypedDict):
    id: Uuid
    number: str


class SiteWithClock(Named):
    timezone: str


class DeskAddendum(TypedDict):
    id: Uuid
    kind: Literal["put_away", "correction", "set_apart", "thawed"]
    at: Moment
    person: str
    body: dict[str, Any]


class DeliveryDetail(TypedDict):
    id: Uuid
    site: SiteWithClock
    supplier: Named
    docket_number: str
    arrived_at: Moment
    signed_at: Moment
    receiver: str
    state: DeliveryState
    is_demo: bool
    differs: bool
    lines: list[LineRow]
    order: OrderOfDelivery | None
    document: InspectionDocument
    judgement: Judgement
    #: Null: phone and server agree.
    difference: list[Difference] | None
    #: What did not go together at signing: moments, or the receiver's name.
    noticed: list[Coded]
    specifications: list[Specification]
    limit_set: LimitSet
    photos: list[DeskPhoto]
    addenda: list[DeskAddendum]


# ---- lots
class LotLabel(TypedDict):
    position: int | None
    best_before: str
    production_date: str


class LotPutAway(TypedDict):
    count: int
    freezer: str
    position: str
    in_at: Moment | None
    by: str


class LotSetApart(TypedDict):
    """Where refused or held cartons stand, or who fetched them; ``at`` as it was entered."""

    count: int
    part: Literal["refused", "held"]
    event: Literal["stand", "fetched"]
    where: str
    by: str
    at: str


class LotRow(TypedDict):
    """A docket line that names a lot on its docket or on labels of its opened cartons."""

    lot: str
    is_on_docket: bool
    site: Named
    supplier: Named
    delivery_id: Uuid
    docket_number: str
    line: int
    order: str | None
    arrived_at: Moment
    timezone: str
    specification: str
    decided: Outcome
    cartons: int
    accepted: int
    refused: int
    held: int
    opened: int
    labels: list[LotLabel]
    signed_by: str
    signed_at: Moment
    put_away: list[LotPutAway]
    not_put_away: int
    set_apart: list[LotSetApart]
    is_demo: bool


class LotsAnswer(TypedDict):
    count: int
    most: int
    rows: list[LotRow]


# ---- orders
class OrderLineRow(TypedDict):
    id: Uuid
    specification: str
    specification_id: Uuid
    cartons: int
    price_per_kg: str | None


class DeliveryOfOrder(TypedDict):
    id: Uuid
    docket_number: str


class OrderRow(TypedDict):
    """An order; its prices are in ``currency`` (ISO 4217)."""

    id: Uuid
    number: str
    site: Named
    supplier: Named
    currency: str
    expected_on: Day
    source: str
    is_demo: bool
    lines: list[OrderLineRow]
    deliveries: list[DeliveryOfOrder]


class OrdersAnswer(TypedDict):
    rows: list[OrderRow]


# ---- thermometers
class ThermometerRow(TypedDict):
    """A site's thermometer with its last check in crushed ice; no moment for one that was only noted by its day."""

    id: Uuid
    site_id: Uuid
    name: str
    accuracy_c: float
    last_checked_on: Day | None
    last_check_c: float | None
    check_due_on: Day | None
    last_checked_at: Moment | None
    in_use: bool


class IceCheckRow(TypedDict):
    """A check in ice, as filed from a phone."""

    id: Uuid
    thermometer_id: Uuid
    at: Moment
    day: Day
    reading: Reading
    reading_c: float
    allowed_c: float
    passed: bool
    due_on: Day
    done_by: str
    sent_by: str


class SiteNamed(TypedDict):
    id: Uuid
    name: str


class ThermometerHere(ThermometerRow):
    site: SiteNamed
    #: By the site's clock.
    today: Day
    #: The newest that were filed, newest first.
    checks: list[IceCheckRow]


class ThermometersAnswer(TypedDict):
    allowed_c: float
    rows: list[ThermometerHere]


# ---- what is kept by hand, and tables
class SupplierKept(TypedDict):
    id: Uuid
    name: str
    code: str
    contact_name: str
    contact_email: str
    is_active: bool


class SpecificationKept(TypedDict):
    """A specification with what its newest version says; all None before the first one."""

    id: Uuid
    code: str
    name: str
    is_active: bool
    version: int
    species_code: str | None
    presentation: str | None
    state: str | None
    grade: str | None
    carton_net_g: float | None
    units_per_carton: int | None
    declared_glaze_percent: float | None
    origin: list[str] | None
    method: str | None
    market: str | None
    min_life_share: float | None
    advisory: bool | None
    overrides: dict[str, float] | None


class ThermometerKept(TypedDict):
    id: Uuid
    site: Uuid
    name: str
    accuracy_c: float
    last_checked_on: Day | None
    last_check_c: float | None
    check_due_on: Day | None
    in_use: bool


class FreezerKept(TypedDict):
    id: Uuid
    site: Uuid
    name: str
    in_use: bool


class UnusableCell(TypedDict):
    line: int
    column: str
    value: str
    sentence: str


class ImportReport(TypedDict):
    """What an import did; without ``is_written`` the counts say what would have been done."""

    kind: Annotated[Literal["suppliers", "specifications", "orders", "thermometers"], Meta(title="ImportKind")]
    is_dry_run: bool
    is_written: bool
    #: The encoding that the file was read in, or "xlsx".
    read_as: str
    rows: int
    added: int
    changed: int
    unchanged: int
    errors: list[UnusableCell]
