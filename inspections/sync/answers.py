"""What the device protocol answers."""
from typing import Annotated, Any, Literal, NotRequired, TypedDict
from uuid import UUID

from msgspec import Meta

from inspections.describe import Day, Moment, Uuid
from inspections.evidence.answers import Seal
from inspections.people.answers import Me, Named
from inspections.records.answers.judgement import Difference, Judgement
from inspections.records.answers.limits import Coded, LimitSet, Specification
from inspections.records.answers.photos import Advice
from inspections.records.answers.thermometers import IceCheckRow, ThermometerRow
from inspections.records.shape.delivery import InspectionDocument
from inspections.strict import Entries


class ExpectedLine(TypedDict):
    id: Uuid
    specification_id: Uuid
    cartons: int
    price_per_kg: str | None


class ExpectedOrder(TypedDict):
    id: Uuid
    number: str
    site_id: Uuid
    supplier_id: Uuid
    expected_on: Day
    lines: list[ExpectedLine]


class OpenDocument(TypedDict):
    id: Uuid
    site_id: Uuid
    supplier_id: Uuid | None
    docket_number: str
    person_name: str
    device_id: Uuid | None
    device_label: str
    revision: int
    updated_at: Moment


class LotAtHand(TypedDict):
    """A lot of a line that was kept, as docket or labels name it; empty where neither does."""

    delivery_id: Uuid
    line_id: Uuid
    site_id: Uuid
    supplier_id: Uuid
    docket_number: str
    name: str
    lot: str
    arrived_at: Moment


class Installation(TypedDict):
    name: str
    public_key: str


class FreezerRow(TypedDict):
    id: Uuid
    site_id: Uuid
    name: str


class LatestSeal(TypedDict):
    """The newest seal of a site when this was told: the outside anchor in the QR code of a docket."""

    site_id: Uuid
    number: int
    sha256: str


class Reference(TypedDict):
    """What a phone takes along; ``revision`` changes exactly when something else does."""

    revision: str
    server_time: Moment
    installation: Installation
    me: Me
    suppliers: list[Named]
    specifications: list[Specification]
    limit_sets: list[LimitSet]
    current_limits_id: Uuid | None
    expected: list[ExpectedOrder]
    thermometers: list[ThermometerRow]
    freezers: list[FreezerRow]
    open_documents: list[OpenDocument]
    #: Absent in what a phone kept of an earlier server.
    lots: NotRequired[list[LotAtHand]]
    public_address: NotRequired[str]
    latest_seals: NotRequired[list[LatestSeal]]


class StoredDocument(TypedDict):
    document: InspectionDocument
    revision: int
    state: Literal["open", "signed"]
    updated_at: Moment


class Revision(TypedDict):
    revision: int


class SignatureAsked(TypedDict):
    document: InspectionDocument


class Signed(TypedDict):
    seal: Seal
    judgement: Judgement
    difference: list[Difference] | None
    noticed: list[Coded]


class AddendumFiled(TypedDict):
    seal: Seal


class IceCheckFiled(TypedDict):
    check: IceCheckRow


class AdvisoriesQuery(Entries):
    delivery: UUID


class HandedInEntry(TypedDict):
    """What a phone would have sent: ``base`` goes with a document, ``key`` with a signature."""

    kind: Literal["document", "signature", "addendum", "check"]
    body: dict[str, Any]
    base: NotRequired[Annotated[int, Meta(ge=0)]]
    is_replacement: NotRequired[bool]
    key: NotRequired[str]


class HandedIn(TypedDict, total=False):
    """What the phone would have been answered."""

    revision: int
    seal: Seal
    judgement: Judgement
    difference: list[Difference] | None
    noticed: list[Coded]
    check: IceCheckRow


class Advisories(TypedDict):
    """Advice by photo hash; null for what is still being worked on."""

    photos: dict[Annotated[str, Meta(pattern="^[0-9a-f]{64}$")], Advice | None]
