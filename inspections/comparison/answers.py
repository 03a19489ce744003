"""What is told of suppliers compared and of the photo advice's worth. Shares are 0 to 1; None "cannot be said"."""
from typing import Annotated, Any, Literal, NotRequired, TypedDict
from uuid import UUID

from msgspec import UNSET, Meta, UnsetType

from inspections.describe import Day, Moment, Uuid
from inspections.people.answers import Named
from inspections.records.answers.limits import AdviceSwitch
from inspections.strict import Entries

PeriodTold = TypedDict("PeriodTold", {"from": Day, "to": Day})
_FromDay = TypedDict("_FromDay", {"from": Day})


class PeriodQuery(Entries, rename={"first": "from", "last": "to"}):
    """Days as year-month-day; a sentence says so where they are not."""

    first: Annotated[str, Meta(max_length=40)] = ""
    last: Annotated[str, Meta(max_length=40)] = ""
    site: UUID | UnsetType = UNSET


MeasuredBy = Annotated[
    Literal["supplier", "site", "specification", "species", "month"], Meta(title="MeasuredBy")
]


class MeasuresQuery(PeriodQuery):
    by: MeasuredBy = "supplier"
    supplier: UUID | UnsetType = UNSET
    specification: UUID | UnsetType = UNSET
    species: Annotated[str, Meta(max_length=10)] = ""


class Threshold(TypedDict):
    cartons: int
    deliveries: int


# ---- suppliers compared
class Count(TypedDict):
    cartons_opened: int
    defective: int


class Rate(Count):
    rate: float | None
    low: float | None
    high: float | None


class Comparable(TypedDict):
    own: Count
    others: Count


class BesideOthers(TypedDict):
    """Beside the others, in the goods and at the sites where others were; all null where those are too few."""

    comparable: Comparable | None
    #: Defective cartons that the others' rates would give in the same goods at the same sites.
    expected: float | None
    ratio: float | None
    ratio_low: float | None
    ratio_high: float | None
    allowed_rate: float | None
    allowed_low: float | None
    allowed_high: float | None
    apart: bool


class HowMany(TypedDict):
    deliveries: int
    deliveries_opened: int
    delivered_cartons: int
    refused_cartons: int
    held_cartons: int
    thawed_faults: int


class SiteHere(Rate, HowMany):
    site_id: Uuid
    name: str
    expected: float | None
    ratio: float | None
    too_few: bool


class MixPart(Rate):
    presentation: str
    state: str
    share: float | None
    everybody: Rate


class Looks(TypedDict):
    cartons_with_product: int
    cartons_with_sample: int


class Luck(TypedDict):
    """What luck explains: chances 0 to 1."""

    says: Literal["more", "fewer", "within"]
    chance: float
    among: float
    one_in: int | None
    compared: int
    design_effect: float


class LimitedCount(TypedDict):
    """Defective of opened cartons; limits are counts of defective ones, null where too few points say anything."""

    opened: int
    defective: int
    low: int | None
    high: int | None
    is_out: bool


class TimePoint(LimitedCount, _FromDay):
    """One month or week, and the running total up to and with it."""

    total: NotRequired[LimitedCount]


class Shift(_FromDay):
    """A lasting change; ``from`` is the first day of the first month or week after it."""

    before: LimitedCount
    since: LimitedCount
    one_in: int | None


class OverTime(TypedDict):
    by: Literal["month", "week"]
    needed: int
    centre: float | None
    is_widened: bool | None
    points: list[TimePoint]
    shift: Shift | None


class RefusedRun(TypedDict):
    """The latest deliveries of which every carton was refused."""

    deliveries: int
    cartons: int
    since: Moment


class FromCommon(TypedDict):
    share: float
    low: float
    high: float


class Rank(TypedDict):
    """A place among suppliers, 1 for the lowest rate: the middle one, and those of 95 of 100 orders drawn."""

    middle: int
    low: int
    high: int
    is_last: float
    of: int


class FunnelLimit(TypedDict):
    """Limits of found over expected at one expected number; 95 % and 99.8 % lie between them."""

    expected: float
    warn_low: float
    warn_high: float
    alarm_low: float
    alarm_high: float


class Funnel(TypedDict):
    effect: float
    spread: float | None
    limits: list[FunnelLimit]


class SupplierRow(Rate, BesideOthers, HowMany, Looks):
    supplier: Named
    refused_run: RefusedRun | None
    luck: Luck | None
    rank: Rank | None
    over_time: OverTime
    difference: FromCommon | None
    shrunk: float | None
    shrunk_low: float | None
    shrunk_high: float | None
    chance_over: float | None
    alone_share: float | None
    too_few: bool


class SupplierParts(TypedDict):
    """What one supplier's rate is made of."""

    by_site: list[SiteHere]
    mix: list[MixPart]


class SiteRow(Rate, BesideOthers, Looks):
    id: Uuid
    name: str
    code: str
    deliveries: int
    too_few: bool


class Comparison(TypedDict):
    period: PeriodTold
    threshold: Threshold
    common: Rate
    over_time: OverTime
    funnel: Funnel | None
    sites: list[SiteRow]
    rows: list[SupplierRow]


# ---- measures
class MeasuredShare(TypedDict):
    count: int
    of: int
    share: float | None
    low: float | None
    high: float | None


class Cost(TypedDict):
    """What a sound kilogram cost; shares that nothing tells are taken as 1."""

    currency: str
    paid: float
    net_share: float | None
    sound_share: float | None
    sound: float | None


class Measured(TypedDict):
    #: By the names of the tallies.
    counts: dict[str, int]
    shares: dict[str, MeasuredShare]
    too_few: bool
    mean_product_c: float | None
    net_share: float | None
    out_minutes: float | None
    settle_days: float | None
    cost: Cost | None


class MeasuredRow(Measured):
    id: str
    name: str


class Only(TypedDict, total=False):
    """What the address asks for alone, by name."""

    supplier: str
    site: str
    specification: str
    species: str
    month: str


class Measures(TypedDict):
    by: MeasuredBy
    period: PeriodTold
    only: Only
    rows: list[MeasuredRow]
    all: Measured


# ---- the month's summary
class SummaryQuery(PeriodQuery):
    month: Annotated[str, Meta(max_length=40)] = ""


class Summary(TypedDict):
    """Sentences and a table, all text, as the screen, the PDF and the mail have them."""

    month: str
    title: str
    sentences: list[str]
    head: list[str]
    rows: list[list[str]]
    note: str


class SummaryWish(TypedDict):
    """``can``: the server sends mail, and the person's address is known."""

    wanted: bool
    can: bool


class SummaryWishSent(Entries):
    wanted: bool


# ---- tables to take away
class TableColumn(TypedDict):
    name: str
    kind: str
    meaning: str


class TableWords(TypedDict):
    """A table that may be taken away, and its columns in words."""

    name: str
    meaning: str
    columns: list[TableColumn]


class TablesAnswer(TypedDict):
    tables: list[TableWords]
    files: list[str]


class TablePage(TypedDict):
    """A page of rows; ``next`` is where the next one begins, empty at the end."""

    table: str
    columns: list[str]
    rows: list[list[Any]]
    next: str


class TableQuery(PeriodQuery):
    """``after`` is the ``next`` of the page before."""

    after: Annotated[str, Meta(max_length=200)] = ""
    limit: Annotated[str, Meta(max_length=40)] = ""


# ---- the photo advice against what receivers found
class Share(TypedDict):
    count: int
    of: int
    share: float | None
    low: float | None
    high: float | None
    too_few: bool


class FoundCounts(TypedDict):
    beyond: int
    within: int
    none: int


class SaidCounts(TypedDict):
    darkening_seen: FoundCounts
    none_seen: FoundCounts
    cannot_tell: FoundCounts


class Counts(TypedDict):
    cartons: int
    deliveries: int
    table: SaidCounts
    agreeing: Share
    right_flags: Share
    flagged: Share
    flagged_beyond: Share
    wrong_flags: Share
    untold: Share


class Group(Counts):
    nothing_to_compare: int


class SiteGroup(Group):
    id: Uuid
    name: str
    code: str
    unanswered: int


class SpecificationRow(AdviceSwitch, Group):
    pass


class SpeciesCounts(Counts):
    code: str
    name: str


_FromWhat = TypedDict("_FromWhat", {"from": Literal["shipped", "findings"]})


class CutOff(_FromWhat):
    """Where darkening begins at some goods; what is not required is there once there are enough findings."""

    species_code: str
    species: str
    presentation: str
    state: str
    sound: int
    spotted: int
    shipped: float
    cut_off: float
    is_quiet: NotRequired[bool]
    refitted: NotRequired[float]
    low: NotRequired[float]
    high: NotRequired[float]
    drift: NotRequired[float]
    auc: NotRequired[float]
    auc_low: NotRequired[float]
    auc_high: NotRequired[float]


class KeptAside(TypedDict):
    auc: float
    auc_low: float
    auc_high: float
    marked: int
    none: int


class LearntAnswer(TypedDict):
    least: int
    floor: float
    most_moved: float
    #: By state: what photographs kept aside showed; empty until they are known.
    kept_aside: dict[str, KeptAside]
    rows: list[CutOff]


class MethodUsed(TypedDict):
    version: str
    photos: int


class AgreementAnswer(TypedDict):
    period: PeriodTold
    threshold: Threshold
    all: Group
    blind: Counts
    maybe_read: Counts
    unanswered: int
    methods: list[MethodUsed]
    sites: list[SiteGroup]
    specifications: list[SpecificationRow]
    species: list[SpeciesCounts]
    learnt: LearntAnswer
