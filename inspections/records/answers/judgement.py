"""The judgement, as it was kept at signing."""
from typing import Annotated, Any, Literal, NotRequired, TypedDict

from inspections.records.answers.limits import Basis
from inspections.records.answers.words import LATER, Check, Sense, Severity, Step, Suggested


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
    settled: NotRequired[Annotated[str, LATER]]
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
    settled: NotRequired[Annotated[str, LATER]]
    unasked: NotRequired[Annotated[list[str], LATER]]
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
