"""Types and lengths of what the desk asks for and sends; what it means is judged where it is saved."""
from datetime import date
from typing import Annotated, Any, Literal
from uuid import UUID

from msgspec import UNSET, Meta, UnsetType

from inspections.people.answers import MarketName, Page, RoleName, Words
from inspections.strict import Entries


class SiteQuery(Entries):
    site: UUID | UnsetType = UNSET


class LotsQuery(Entries):
    q: Annotated[str, Meta(min_length=1, max_length=100)]


class PhotoQuery(Entries):
    """The advice that an overlay or histogram belongs to; without it the newest."""

    of: UUID | UnsetType = UNSET


class ImportQuery(Entries):
    """A dry run checks and writes nothing; else good lines may be kept although others are bad."""

    dry_run: Literal["1", "yes", ""] = ""
    keep_good: Literal["1", "yes", ""] = ""


class OrdersQuery(Entries, rename={"first_day": "from", "last_day": "to"}):
    site: UUID | UnsetType = UNSET
    first_day: date | UnsetType = UNSET
    last_day: date | UnsetType = UNSET


class DeliveriesQuery(OrdersQuery):
    supplier: UUID | UnsetType = UNSET
    state: Literal["signed", "put_away", ""] = ""
    refused: Literal["yes", ""] = ""
    defective: Literal["yes", ""] = ""
    q: Words = ""
    page: Page = 1


class TrialAsked(Entries, rename={"first_day": "from", "last_day": "to"}):
    """What is tried on signed deliveries: a set of limits, a plan, or both; days of arrival, both in."""

    limits: dict[str, Any] | None = None
    plan: Annotated[str, Meta(max_length=40)] = ""
    site: UUID | UnsetType = UNSET
    first_day: date | UnsetType = UNSET
    last_day: date | UnsetType = UNSET


class NewLimits(Entries):
    """A set of limits, each written as in the answer; what it cannot say is told in a sentence."""

    name: Annotated[str, Meta(max_length=120)]
    limits: list[dict[str, Any]]
    default_plan: Annotated[str, Meta(max_length=40)] = "house"
    #: Of the set that it was made from; not looked at.
    id: str | UnsetType = UNSET
    version: int | UnsetType = UNSET


class Agreed(Entries):
    """What was agreed; what stands in it is held to what the judgements can read (``services.reference``)."""

    species_code: Annotated[str, Meta(max_length=10)] | UnsetType = UNSET
    presentation: Annotated[str, Meta(max_length=20)] | UnsetType | None = UNSET
    state: Annotated[str, Meta(max_length=20)] | UnsetType | None = UNSET
    grade: Annotated[str, Meta(max_length=40)] | UnsetType = UNSET
    carton_net_g: float | UnsetType | None = UNSET
    units_per_carton: int | UnsetType | None = UNSET
    declared_glaze_percent: float | UnsetType | None = UNSET
    origin: list[Annotated[str, Meta(max_length=10)]] | UnsetType | None = UNSET
    method: Annotated[str, Meta(max_length=40)] | UnsetType | None = UNSET
    market: Annotated[str, Meta(max_length=10)] | UnsetType | None = UNSET
    min_life_share: float | UnsetType | None = UNSET
    advisory: bool | UnsetType = UNSET
    overrides: dict[str, float] | UnsetType = UNSET


class NewSpecification(Entries):
    code: Annotated[str, Meta(min_length=1, max_length=40)]
    name: Annotated[str, Meta(min_length=1, max_length=160)]
    data: dict[str, Any]


class AdviceOn(Entries):
    is_on: bool


# ---- kept by hand: what is left out stays as it was
class OfPerson(Entries):
    username: Annotated[str, Meta(min_length=1, max_length=150)] | UnsetType = UNSET
    name: Annotated[str, Meta(min_length=1, max_length=120)] | UnsetType = UNSET
    email: Annotated[str, Meta(max_length=254)] | UnsetType = UNSET
    role: RoleName | UnsetType = UNSET
    sites: Annotated[list[UUID], Meta(max_length=500)] | UnsetType = UNSET
    is_active: bool | UnsetType = UNSET
    password: Annotated[str, Meta(max_length=500)] | UnsetType = UNSET
    pin: Annotated[str, Meta(max_length=8)] | UnsetType = UNSET


class OfSite(Entries):
    name: Annotated[str, Meta(min_length=1, max_length=80)] | UnsetType = UNSET
    code: Annotated[str, Meta(min_length=1, max_length=12)] | UnsetType = UNSET
    timezone: Annotated[str, Meta(min_length=1, max_length=64)] | UnsetType = UNSET
    currency: Annotated[str, Meta(pattern="^[A-Z]{3}$", max_length=3)] | UnsetType = UNSET
    market: MarketName | UnsetType = UNSET


class OfSupplier(Entries):
    name: Annotated[str, Meta(min_length=1, max_length=120)] | UnsetType = UNSET
    code: Annotated[str, Meta(min_length=1, max_length=20)] | UnsetType = UNSET
    contact_name: Annotated[str, Meta(max_length=120)] | UnsetType = UNSET
    contact_email: Annotated[str, Meta(max_length=254)] | UnsetType = UNSET
    is_active: bool | UnsetType = UNSET


class OfSpecification(Agreed):
    code: Annotated[str, Meta(min_length=1, max_length=40)] | UnsetType = UNSET
    name: Annotated[str, Meta(min_length=1, max_length=160)] | UnsetType = UNSET
    is_active: bool | UnsetType = UNSET


class OfFreezer(Entries):
    site: UUID | UnsetType = UNSET
    name: Annotated[str, Meta(min_length=1, max_length=60)] | UnsetType = UNSET
    in_use: bool | UnsetType = UNSET


class OfThermometer(OfFreezer):
    accuracy_c: Annotated[float, Meta(ge=0.01, le=10)] | UnsetType = UNSET
    last_checked_on: date | UnsetType | None = UNSET
    last_check_c: Annotated[float, Meta(ge=-50, le=50)] | UnsetType | None = UNSET
    check_due_on: date | UnsetType | None = UNSET
