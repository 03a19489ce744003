"""What is told of claims, and what is sent of them. Amounts are text, exact in their currency, with their words."""
from typing import Annotated, Any, Literal, NotRequired, TypedDict
from uuid import UUID

from msgspec import UNSET, Meta, UnsetType

from inspections.describe import Moment, Sha256, Uuid
from inspections.evidence.answers import LoggerAnswers
from inspections.strict import Entries

ClaimState = Annotated[
    Literal["drafted", "sent", "contested", "offered", "agreed", "settled", "withdrawn"], Meta(title="ClaimState")
]
EntryKind = Annotated[
    Literal["send", "agree", "contest", "ask", "offer", "accept", "note", "credit", "withdraw"],
    Meta(title="EntryKind"),
]


class NamedRow(TypedDict):
    id: Uuid
    name: str


class Amount(TypedDict):
    value: str
    words: str


class ClaimDeadline(TypedDict):
    """What is due next, by the site's clock."""

    at: Moment
    what: str
    left: str
    words: str
    is_over: bool


class ClaimRow(TypedDict):
    """A claim in a list; ``amount`` is the one that counts now."""

    id: Uuid
    number: str
    state: ClaimState
    state_words: str
    site: NamedRow
    supplier: NamedRow
    delivery_id: Uuid
    docket_number: str
    line: int
    line_id: Uuid
    product: str
    arrived_at: Moment
    age_days: int
    currency: str
    claimed: Amount | None
    offered: Amount | None
    agreed: Amount | None
    credited: Amount | None
    amount: Amount | None
    credit_note: str
    deadline: ClaimDeadline | None
    sent_at: Moment | None
    closed_at: Moment | None


class ClaimsAnswer(TypedDict):
    rows: list[ClaimRow]
    count: int
    sends_mail: bool


class ClaimsOfDelivery(TypedDict):
    rows: list[ClaimRow]


class FellShort(TypedDict):
    """A finding of the verdict: its limit, and whose limit it is."""

    text: str
    severity: str
    limit: str
    whose: str


class ClaimItem(TypedDict):
    """What is claimed on one ground; ``computed`` is what the figures come to, ``reason`` why another is claimed."""

    ground: str
    figures: dict[str, str]
    amount: str | None
    computed: str | None
    sum: str
    reason: str


class ClaimItemTold(ClaimItem):
    name: str
    inputs: list[str]
    amount_words: str


class ClaimPoint(TypedDict):
    """What is said to one item."""

    item: int
    text: str
    name: str


class ClaimFileTold(TypedDict):
    name: str
    sha256: Sha256
    bytes: int
    kind: Literal["photo", "logger"]
    type: str
    #: What a logger's file says, and its drawing (SVG).
    summary: NotRequired[str]
    drawings: NotRequired[str]


class EntrySeal(TypedDict):
    number: int
    sha256: Sha256


class ThreadEntry(TypedDict):
    """What a side said, out of its sealed bytes; the first has the claim as it was sent."""

    id: Uuid
    claim_id: Uuid
    claim_number: str
    number: int
    kind: EntryKind
    side: Literal["kitchen", "supplier"]
    at: Moment
    by: str
    text: str
    points: list[ClaimPoint]
    files: list[ClaimFileTold]
    currency: str
    amount: str | None
    what: str
    when: str
    side_words: str
    #: An offer of more than is claimed.
    is_above: bool
    amount_words: str
    seal: EntrySeal
    line_id: NotRequired[Uuid]
    line_number: NotRequired[int]
    product: NotRequired[str]
    found: NotRequired[list[FellShort]]
    items: NotRequired[list[ClaimItem]]
    notice_until: NotRequired[Moment]
    notice_basis: NotRequired[str]
    answer_until: NotRequired[Moment]
    credit_note: NotRequired[str]


class Notice(TypedDict):
    until: str
    basis: str
    left: str


class ClaimMail(TypedDict):
    """A mail or a notification, and what became of it."""

    id: Uuid
    kind: str
    channel: Literal["mail", "notification"]
    to: str
    state: Literal["waiting", "sending", "sent", "unsure", "failed"]
    words: str
    sentence: str
    at: Moment


class GroundInput(TypedDict):
    name: str
    words: str


class GroundTold(TypedDict):
    name: str
    inputs: list[GroundInput]


class ClaimDetail(ClaimRow):
    """A claim whole: ``may`` is what the kitchen may say next."""

    found: list[FellShort]
    items: list[ClaimItemTold]
    thread: list[ThreadEntry]
    notice: Notice
    answer_hours: int
    created_by: str
    offered_by: str
    offered_by_words: str
    may: list[EntryKind]
    contact: str
    mails: list[ClaimMail]
    grounds: dict[str, GroundTold]


class ClaimFigures(TypedDict):
    """What the claims on a supplier come to in one currency; days are a median."""

    supplier: NamedRow
    currency: str
    claims: int
    open: int
    settled: int
    claimed: str
    agreed: str
    credited: str
    agreed_share: float | None
    days: float | None


class FiguresAnswer(TypedDict):
    rows: list[ClaimFigures]


class ClaimTerms(TypedDict):
    supplier: NamedRow
    is_kept: bool
    currency: str
    notice_hours: int
    answer_hours: int


class SupplierPersonRow(TypedDict):
    """Somebody of a supplier who may sign in, or was ended; ``has_password`` once the invitation was taken up."""

    id: int
    name: str
    email: str
    is_active: bool
    has_password: bool
    invited_by: str
    invited_at: Moment
    last_login: Moment | None
    #: How the mail with the newest invitation stands; empty where none was written.
    mail: str


class SupplierPeopleAnswer(TypedDict):
    rows: list[SupplierPersonRow]


class SupplierInvited(SupplierPersonRow):
    """With the address of the invitation, told this once; empty for an account that was ended."""

    address: str


class SupplierPersonSent(Entries):
    name: Annotated[str, Meta(min_length=1, max_length=120)]
    email: Annotated[str, Meta(min_length=3, max_length=150)]


class SupplierPersonUse(Entries):
    """False ends the account; True invites its owner anew, who then sets another password."""

    is_active: bool


class ClaimsQuery(Entries):
    state: Literal[
        "open", "all", "drafted", "sent", "contested", "offered", "agreed", "settled", "withdrawn"
    ] = "open"
    supplier: UUID | UnsetType = UNSET
    site: UUID | UnsetType = UNSET
    over: Literal["yes", ""] = ""
    order: Literal["age", "amount", "supplier", "deadline"] = "age"


class NotificationRow(TypedDict):
    """A browser of one's own; ``endpoint_sha256`` tells it which it is."""

    id: Uuid
    endpoint_sha256: Sha256
    label: str
    created_at: Moment


class NotificationsAnswer(TypedDict):
    """``public_key`` is the ``applicationServerKey`` of the W3C Push API, base64url."""

    public_key: str
    rows: list[NotificationRow]


class SubscriptionSent(Entries):
    """A browser's subscription as its push service made it (W3C Push API)."""

    endpoint: Annotated[str, Meta(max_length=2000)]
    p256dh: Annotated[str, Meta(max_length=100)]
    auth: Annotated[str, Meta(max_length=30)]


class NewClaim(Entries):
    line: UUID


class ItemsSent(Entries):
    """Items with ground, figures as they are entered, amount (none: it is reckoned) and reason."""

    items: Annotated[list[dict[str, Any]], Meta(max_length=40)]


class EntrySent(Entries):
    """The fields of the form; see ``EntryForm``."""

    id: UUID
    kind: EntryKind
    text: Annotated[str, Meta(max_length=10_000)] = ""
    amount: Annotated[str, Meta(max_length=40)] | None = None
    credit_note: Annotated[str, Meta(max_length=60)] = ""
    #: An offer of more than is claimed is meant.
    is_above_meant: bool = False


class EntryForm(LoggerAnswers):
    """What the kitchen says: a form, since files may go with it; ``amount`` as it is entered."""

    id: Uuid
    kind: EntryKind
    text: NotRequired[str]
    amount: NotRequired[str]
    credit_note: NotRequired[str]
    is_above_meant: NotRequired[bool]
    files: NotRequired[list[bytes]]


class TermsSent(Entries):
    currency: Annotated[str, Meta(pattern="^([A-Z]{3})?$", max_length=3)]
    notice_hours: Annotated[int, Meta(ge=1, le=8784)]
    answer_hours: Annotated[int, Meta(ge=1, le=8784)]
