"""The database itself refuses to alter what was sealed: triggers on every table that a seal speaks for.

They stop mistakes and programs that come by another way (a console, a report's connection, a later release gone
wrong), not an administrator, who can take them away; ``verify_seals`` names a guard that is missing. A migration
may have to rebuild a guarded table, and SQLite drops a table's triggers with it, so they are taken off before
every ``migrate`` and put on anew after it, from this list.

Left free, each for its reason: ``Delivery.state`` (signed, then put away), ``LimitSet.is_current`` (another set
may be in use), and what is not part of a record: advice and its jobs (given later, by machine, never sealed),
receipts of photos (other sites may receive them too), open documents and their revisions, links.
"""
from dataclasses import dataclass

from django.db import connection as default_connection
from django.db.backends.base.base import BaseDatabaseWrapper
from django.utils.connection import ConnectionProxy

Connection = BaseDatabaseWrapper | ConnectionProxy  # type: ignore[type-arg]  # takes an argument in the stubs only

SAYS = "SEALED: this row belongs to a sealed record and cannot be altered. Add a correction instead."
_SEALED = "EXISTS (SELECT 1 FROM evidence_seal s WHERE s.kind = '{kind}' AND s.subject_id = {id})"
_DELIVERY = _SEALED.format(kind="delivery", id="{row}.delivery_id")
_PHOTO = (
    "EXISTS (SELECT 1 FROM records_photouse u JOIN evidence_seal s ON s.kind = 'delivery' "
    "AND s.subject_id = u.delivery_id WHERE u.photo_id = {{row}}.{column})"
)


@dataclass(frozen=True)
class Guard:
    """A table, when a row of it is sealed (SQL with ``{row}`` for OLD or NEW), and what may change even then.

    ``takes_rows`` is False where a sealed record must not get another row either, but for those that ``may_come``
    (SQL): an addendum's, under a seal of their own.
    """

    table: str
    sealed: str
    free: tuple[str, ...] = ()
    takes_rows: bool = True
    may_come: str = ""

    def whens(self) -> dict[str, tuple[str, ...]]:
        """Which rows are looked at, by the name of the statement."""
        rows = ("OLD",) if self.takes_rows else ("OLD", "NEW")
        return {"UPDATE": rows, "DELETE": ("OLD",), **({} if self.takes_rows else {"INSERT": ("NEW",)})}

    def name(self, statement: str) -> str:
        return f"sealed_{self.table}_{statement.lower()}"

    def condition(self, statement: str, rows: tuple[str, ...]) -> str:
        told = " OR ".join(self.sealed.format(row=row) for row in rows)
        return f"({told}) AND NOT (NEW.{self.may_come})" if self.may_come and statement == "INSERT" else told


GUARDS = (
    Guard("records_delivery", _SEALED.format(kind="delivery", id="{row}.id"), free=("state",)),
    Guard("records_docketline", _DELIVERY, takes_rows=False),
    Guard("records_carton", _SEALED.format(
        kind="delivery", id="(SELECT l.delivery_id FROM records_docketline l WHERE l.id = {row}.line_id)",
    ), takes_rows=False),
    Guard("records_reading", _DELIVERY, takes_rows=False),
    Guard("records_finding", _DELIVERY, takes_rows=False),
    Guard("records_photouse", _DELIVERY, takes_rows=False, may_come="purpose = 'thawed'"),
    Guard("records_photo", _PHOTO.format(column="sha256")),
    Guard("evidence_sharedcopy", _PHOTO.format(column="photo_id")),
    Guard("records_addendum", _SEALED.format(kind="addendum", id="{row}.id")),
    Guard("records_putaway", _SEALED.format(kind="addendum", id="{row}.addendum_id"), takes_rows=False),
    Guard("records_loggerfile", _SEALED.format(kind="logger", id="{row}.id")),
    Guard("records_claimentry", _SEALED.format(kind="claim", id="{row}.id")),
    Guard("records_specificationversion", "1 = 1"),
    Guard("records_limitset", "1 = 1", free=("is_current",)),
    Guard("evidence_sealingkey", "1 = 1"),
    Guard("evidence_seal", "1 = 1"),
    Guard("evidence_timestamp", "1 = 1"),
)


def install(connection: Connection = default_connection) -> None:
    """Put every guard on, those that are there anew."""
    remove(connection)
    with connection.cursor() as cursor:
        for guard in GUARDS:
            for statement, rows in guard.whens().items():
                for sql in _created(connection, guard, statement, rows):
                    cursor.execute(sql)


def remove(connection: Connection = default_connection) -> None:
    """Take every guard off; nothing happens where a table or guard is not there."""
    tables = set(connection.introspection.table_names())
    with connection.cursor() as cursor:
        for guard in GUARDS:
            for statement in guard.whens() if guard.table in tables else ():
                on = f" ON {guard.table}" if connection.vendor == "postgresql" else ""
                cursor.execute(f"DROP TRIGGER IF EXISTS {guard.name(statement)}{on}")


def missing(connection: Connection = default_connection) -> list[str]:
    """Names of the guards that are not on."""
    with connection.cursor() as cursor:
        cursor.execute(
            "SELECT tgname FROM pg_trigger WHERE tgname LIKE 'sealed_%' AND tgenabled <> 'D'"
            if connection.vendor == "postgresql" else
            "SELECT name FROM sqlite_master WHERE type = 'trigger' AND name LIKE 'sealed_%'"
        )
        there = {name for (name,) in cursor.fetchall()}
    return [name for guard in GUARDS for statement in guard.whens() if (name := guard.name(statement)) not in there]


def before_migrate(sender: object, using: str, **told: object) -> None:
    """Django's signal: a migration may rebuild guarded tables."""
    from django.db import connections

    remove(connections[using])


def after_migrate(sender: object, using: str, **told: object) -> None:
    """Django's signal: all tables are as they will be; where only some were migrated, not yet."""
    from django.db import connections

    if {guard.table for guard in GUARDS} <= set(connections[using].introspection.table_names()):
        install(connections[using])


def _created(connection: Connection, guard: Guard, statement: str, rows: tuple[str, ...]) -> list[str]:
    name, when = guard.name(statement), guard.condition(statement, rows)
    event = statement
    if statement == "UPDATE" and guard.free:
        event += f" OF {', '.join(_columns(connection, guard))}"
    if connection.vendor != "postgresql":
        return [f"CREATE TRIGGER {name} BEFORE {event} ON {guard.table} FOR EACH ROW WHEN {when} "
                f"BEGIN SELECT RAISE(ABORT, '{SAYS}'); END"]
    kept = "OLD" if statement == "DELETE" else "NEW"
    return [
        f"CREATE OR REPLACE FUNCTION {name}() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN IF {when} THEN "
        f"RAISE EXCEPTION '{SAYS}' USING ERRCODE = 'integrity_constraint_violation'; END IF; RETURN {kept}; END $$",
        f"CREATE TRIGGER {name} BEFORE {event} ON {guard.table} FOR EACH ROW EXECUTE FUNCTION {name}()",
    ]


def _columns(connection: Connection, guard: Guard) -> list[str]:
    with connection.cursor() as cursor:
        columns = [one.name for one in connection.introspection.get_table_description(cursor, guard.table)]
    return [column for column in columns if column not in guard.free]
