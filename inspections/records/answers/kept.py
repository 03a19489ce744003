"""What is kept by hand, and tables from elsewhere."""
from typing import Annotated, Literal, TypedDict

from msgspec import Meta

from inspections.describe import Day, Uuid


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
