"""What is bought, and the limits it is judged by."""
from typing import Literal, NotRequired, TypedDict

from inspections.describe import Moment, Uuid
from inspections.people.answers import MarketName
from inspections.records.answers.words import GoodsState, Method, PlanName, Presentation, Sense, Severity


class Coded(TypedDict):
    code: str
    text: str


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
