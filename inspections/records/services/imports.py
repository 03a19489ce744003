"""A table from elsewhere becomes reference data or orders."""
from dataclasses import asdict, dataclass, field

from django.core.exceptions import ValidationError
from django.db import transaction

from inspections.people.access import need_role, sites_for
from inspections.people.models import Person, Role, Site
from inspections.records.imports import LineError, Row, read_rows
from inspections.records.models import Order, OrderLine, Specification, SpecificationVersion, Supplier, Thermometer
from inspections.records.services.reference import publish_specification, specification_faults

#: Who may import what; an administrator may everything.
NEEDED_ROLES = {
    "suppliers": (Role.GROUP_OPERATIONS,),
    "specifications": (Role.GROUP_OPERATIONS,),
    "orders": (Role.SITE_MANAGER, Role.GROUP_OPERATIONS),
    "thermometers": (Role.SITE_MANAGER, Role.GROUP_OPERATIONS),
}


@dataclass
class Report:
    """What an import did: lines read, records added, changed, unchanged, and every cell that cannot be used.

    With ``is_written`` false the counts say what would have been done. ``read_as`` is the encoding, or xlsx.
    """

    kind: str
    rows: int = 0
    added: int = 0
    changed: int = 0
    unchanged: int = 0
    errors: list[LineError] = field(default_factory=list)
    is_dry_run: bool = False
    is_written: bool = False
    read_as: str = ""

    def to_json(self) -> dict:
        """As the API answers."""
        return asdict(self)


class _NothingWritten(Exception):
    """Rolls the transaction back."""


def import_rows(
    *, kind: str, content: bytes, person: Person | None, keep_good: bool = False, is_dry_run: bool = False
) -> Report:
    """Read a table and write what it holds.

    Parameters
    ----------
    kind : {"suppliers", "specifications", "orders", "thermometers"}
    content : bytes
        The file, CSV or .xlsx, see ``records.tables``.
    person : Person or None
        Who imports: role and sites are held to; None for a command on the server itself.
    keep_good : bool
        Write the good lines although others are bad. An order with a bad line is left out whole: half an
        order would look like the whole one at the dock.
    is_dry_run : bool
        Check every line against the database, and write nothing.

    Raises
    ------
    Unprocessable
        IMPORT-…: the file as a whole cannot be used.
    Forbidden
        ROLE-NEEDED.

    Notes
    -----
    One transaction. Lines are found again by their code (orders by site, supplier and number), so a second
    import of the same file changes nothing; nothing that is not in the file is removed.
    """
    if person is not None and kind in NEEDED_ROLES:
        need_role(person, *NEEDED_ROLES[kind])
    rows, read_as = read_rows(kind, content)
    report = Report(kind, rows=len(rows), is_dry_run=is_dry_run, read_as=read_as)
    try:
        with transaction.atomic():
            _WRITERS[kind](rows, report, person)
            report.errors = [error for row in rows for error in row.errors]
            if is_dry_run or (report.errors and not keep_good):
                raise _NothingWritten
    except _NothingWritten:
        return report
    report.is_written = True
    return report


def _suppliers(rows: list[Row], report: Report, person: Person | None) -> None:
    for row in rows:
        values = _given(row)
        _write(report, row, Supplier, {"code": values.pop("code", "")}, values)


def _thermometers(rows: list[Row], report: Report, person: Person | None) -> None:
    sites = _sites(person)
    for row in rows:
        site = _found(row, "site", sites, "There is no site of that code that you look after.")
        values = _given(row)
        values.pop("site", None)
        _write(report, row, Thermometer, {"site": site, "name": values.pop("name", "")}, values)


def _given(row: Row) -> dict:
    """What the line says in columns that the file has and that could be read."""
    return {name: value for name, value in row.values.items() if name in row.raw}


def _specifications(rows: list[Row], report: Report, person: Person | None) -> None:
    for row in rows:
        code, name = row.raw.get("code", ""), row.raw.get("name", "")
        newest = SpecificationVersion.objects.filter(specification__code=code).order_by("-version").first()
        # What the file has no column for stays as it was agreed.
        data = {**(newest.data if newest else {}), **_specification_data(row)}
        for trouble in specification_faults(data):
            column = trouble.facts.get("field", "")
            _refuse_once(row, _COLUMN_OF.get(column, column), str(trouble))
        _check(row, Specification(code=code, name=name))
        if not row.errors:
            published = publish_specification(code=code, name=name, data=data, person=person)
            _tally(report, is_new=newest is None, is_changed=published != newest)


def _refuse_once(row: Row, column: str, sentence: str) -> None:
    """A cell that could not even be read is named already."""
    if not any(error.column == column for error in row.errors):
        row.refuse(column, sentence)


_COLUMN_OF = {"species_code": "species", "carton_net_g": "carton_net"}


def _specification_data(row: Row) -> dict:
    given = {name: value for name, value in _given(row).items() if name not in ("code", "name")}
    for column, name, as_kept in (
        ("species", "species_code", str.upper), ("carton_net", "carton_net_g", float), ("market", "market", str.upper),
        ("presentation", "presentation", str.upper), ("state", "state", str.lower), ("method", "method", str.lower),
    ):
        if column in given:
            given[name] = as_kept(given.pop(column)) or None
    return given


def _orders(rows: list[Row], report: Report, person: Person | None) -> None:
    look = _OrderLooks(person)
    orders: dict[tuple, list[Row]] = {}
    for row in rows:
        look.up(row)
        orders.setdefault(tuple(row.raw.get(name, "") for name in ("site", "supplier", "number")), []).append(row)
    for group in orders.values():
        _check_together(group)
        bad = [row for row in group if row.errors]
        if not bad:
            _write_order(group, report)
            continue
        for row in group:
            if not row.errors:
                row.refuse("", f"Left out, because line {bad[0].line} of the same order cannot be used.")


class _OrderLooks:
    """Sites, suppliers and specifications by code, each looked up once for the whole file."""

    def __init__(self, person: Person | None):
        self.sites = _sites(person)
        self.suppliers = {supplier.code: supplier for supplier in Supplier.objects.all()}
        versions = SpecificationVersion.objects.select_related("specification").order_by("version")
        self.versions = {version.specification.code: version for version in versions}

    def up(self, row: Row) -> None:
        """Put the rows of the database in place of their codes."""
        known = (
            ("site", self.sites, "There is no site of that code that you look after."),
            ("supplier", self.suppliers, "There is no supplier of that code. Import suppliers first."),
            ("specification", self.versions, "There is no specification of that code. Import specifications first."),
        )
        for column, rows, sentence in known:
            if column in row.values:
                row.values[column] = _found(row, column, rows, sentence)


def _check_together(group: list[Row]) -> None:
    """Lines of one order agree on the day, and no product stands on two of them."""
    seen: dict = {}
    for row in group:
        if row.values.get("expected_on") != group[0].values.get("expected_on"):
            row.refuse("expected_on", f"Line {group[0].line} of the same order has another day.")
        code = row.raw.get("specification", "")
        if seen.setdefault(code, row.line) != row.line:
            row.refuse("specification", f"Line {seen[code]} of the same order has this product already.")


def _write_order(group: list[Row], report: Report) -> None:
    first = group[0].values
    order, is_new = Order.objects.get_or_create(
        site=first["site"], supplier=first["supplier"], number=first["number"],
        defaults={"expected_on": first["expected_on"], "source": "import"},
    )
    is_changed = order.expected_on != first["expected_on"]
    if is_changed:
        order.expected_on = first["expected_on"]
        order.save()
    for row in group:
        is_changed |= _write_order_line(order, row.values)
    _tally(report, is_new=is_new, is_changed=is_changed)


def _write_order_line(order: Order, values: dict) -> bool:
    """Write one line; True when that changed anything.

    A line is found again by its product, whatever version it was ordered by: importing an order again after
    a new version was published must not add the product a second time.
    """
    specification = values["specification"].specification
    line = order.lines.filter(specification_version__specification=specification).first()
    if line is None:
        line = OrderLine(order=order, specification_version=values["specification"])
    wanted = (values["cartons"], values.get("price_per_kg"))
    if not line._state.adding and (line.cartons, line.price_per_kg) == wanted:
        return False
    line.cartons, line.price_per_kg = wanted
    line.full_clean()
    line.save()
    return True


def _sites(person: Person | None) -> dict[str, Site]:
    sites = Site.objects.all() if person is None else sites_for(person)
    return {site.code: site for site in sites}


def _found(row: Row, column: str, known: dict, sentence: str):
    found = known.get(row.raw.get(column, ""))
    if found is None:
        _refuse_once(row, column, sentence)
    return found


def _write(report: Report, row: Row, model, found_by: dict, values: dict) -> None:
    """Add or change one row of ``model``; columns that the file does not have are left as they are."""
    record = model.objects.filter(**found_by).first()
    is_new = record is None
    record = record or model(**found_by)
    changes = {name: value for name, value in values.items() if is_new or getattr(record, name) != value}
    for name, value in changes.items():
        setattr(record, name, value)
    if is_new or changes:
        _check(row, record)
    if row.errors:
        return
    if is_new or changes:
        record.save()
    _tally(report, is_new=is_new, is_changed=bool(changes))


def _check(row: Row, record) -> None:
    """What the database could not keep; also beside cells that could not be read, so that all are named at once."""
    known = {error.column for error in row.errors}
    try:
        if known:
            record.clean_fields(exclude=known)
        else:
            record.full_clean(validate_unique=False)
    except ValidationError as trouble:
        for name, sentences in trouble.message_dict.items():
            row.refuse(name if name in row.raw else "", " ".join(sentences))


def _tally(report: Report, *, is_new: bool, is_changed: bool) -> None:
    if is_new:
        report.added += 1
    elif is_changed:
        report.changed += 1
    else:
        report.unchanged += 1


_WRITERS = {
    "suppliers": _suppliers, "specifications": _specifications, "orders": _orders, "thermometers": _thermometers,
}
