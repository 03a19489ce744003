"""What is told of people, sites, devices and the trail, and what is sent of them."""
from typing import Annotated, Any, Literal, NotRequired, TypedDict
from uuid import UUID

from msgspec import UNSET, Meta, UnsetType

from inspections.describe import Moment, Uuid
from inspections.strict import Entries

RoleName = Annotated[
    Literal["receiver", "site_manager", "group_operations", "administrator"], Meta(title="Role")
]
MarketName = Annotated[Literal["EU", "US", "ANZ", "CODEX"], Meta(title="Market")]
Label = Annotated[str, Meta(max_length=80)]
Password = Annotated[str, Meta(min_length=1, max_length=500)]
Words = Annotated[str, Meta(max_length=100)]
Page = Annotated[int, Meta(ge=1, le=1_000_000)]


class Named(TypedDict):
    id: Uuid
    name: str
    code: str


class Site(Named):
    """A kitchen that receives."""

    timezone: str
    currency: str
    market: MarketName


class Me(TypedDict):
    """The person who is signed in, with the sites they see."""

    id: int
    name: str
    role: RoleName
    sites: list[Site]


class SessionAnswer(TypedDict):
    person: Me | None
    #: Why the server takes nothing from this device.
    revoked: NotRequired[str]


class SharedHere(TypedDict):
    id: Uuid
    label: str
    site: str
    revoked: str | None


class PersonHere(TypedDict):
    id: int
    name: str


class SharedDevice(TypedDict):
    """A device that a site shares, and who may take it into their hands."""

    device: SharedHere | None
    people: list[PersonHere]


class SiteOfDevice(TypedDict):
    id: Uuid
    name: str


class DeviceRow(TypedDict):
    """A phone, tablet or browser; with a site it is one that a dock shares."""

    id: Uuid
    label: str
    person: str
    site: SiteOfDevice | None
    last_seen: Moment
    enrolled_by: str | None
    enrolled_at: Moment | None
    revoked_by: str | None
    revoked_at: Moment | None


class DevicesAnswer(TypedDict):
    rows: list[DeviceRow]


class DeviceCode(TypedDict):
    code: str
    expires_at: Moment


class DeedRow(TypedDict):
    """A row of the trail: who saw or did what."""

    id: int
    at: Moment
    words: str
    about: str
    person: str
    site: str
    device: str
    address: str


class TrailPage(TypedDict):
    rows: list[DeedRow]
    page: int
    pages: int


class PasskeyRow(TypedDict):
    """A passkey as its owner lists it; its key is never told."""

    id: int
    label: str
    created_at: Moment
    last_used_at: Moment | None


class Passkeys(TypedDict):
    rows: list[PasskeyRow]


class PasskeyOptions(TypedDict):
    """What ``navigator.credentials`` takes, as JSON (Web Authentication Level 3, 5.4 and 5.5)."""

    publicKey: dict[str, Any]


class AccountRow(TypedDict):
    """An account as the desk lists it; never a password or a PIN."""

    id: str
    username: str
    name: str
    email: str
    role: RoleName
    sites: list[Uuid]
    is_active: bool
    has_pin: bool
    last_login: Moment | None


class SignIn(Entries):
    username: Annotated[str, Meta(min_length=1, max_length=150)]
    password: Password
    device_id: UUID | UnsetType = UNSET
    device_label: Label = ""


class DeviceEnrolment(Entries):
    code: Annotated[str, Meta(min_length=1, max_length=20)]
    device_id: UUID


class PinSignIn(Entries):
    person_id: Annotated[int, Meta(ge=1, le=2**31 - 1)]
    pin: Annotated[str, Meta(min_length=1, max_length=8)]


class OwnPin(Entries):
    password: Password
    pin: Annotated[str, Meta(max_length=8)]


class OwnPassword(Entries):
    password: Password


class NewPasskey(Entries):
    #: What the browser made, as its own ``toJSON`` writes it.
    credential: dict[str, Any]
    label: Annotated[str, Meta(min_length=1, max_length=80)]


class PasskeySignIn(Entries):
    credential: dict[str, Any]
    device_id: UUID | UnsetType = UNSET
    device_label: Label = ""


class NewDevice(Entries):
    site: UUID
    label: Annotated[str, Meta(min_length=1, max_length=80)]


class DeviceUse(Entries):
    is_revoked: bool


class TrailQuery(Entries):
    site: UUID | UnsetType = UNSET
    q: Words = ""
    page: Page = 1


