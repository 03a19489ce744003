"""Tables to take away: the dictionary, pages of rows for other systems, and files."""
import tempfile
from pathlib import Path

from django.core.exceptions import ValidationError
from django.db.models import QuerySet
from django.http import FileResponse
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from inspections.comparison import answers
from inspections.comparison.asking import asked_sites_and_period
from inspections.comparison.table_files import KINDS, write_file
from inspections.comparison.tables import PAGE, TABLES, Table, dictionary, rows_of
from inspections.describe import describe
from inspections.errors import NotFound, Unprocessable
from inspections.people import trail
from inspections.people.access import need_role
from inspections.people.models import Role, Site
from inspections.strict import read_query


class TablesView(APIView):
    """Every table and column in words."""

    @describe(answers.TablesAnswer)
    def get(self, request: Request) -> Response:
        need_role(request.user, Role.SITE_MANAGER, Role.GROUP_OPERATIONS)
        return Response({"tables": dictionary(), "files": list(KINDS)})


class TableRowsView(APIView):
    """A page of rows: ``after`` where the last one ended, ``limit`` rows; ``next`` is empty at the end."""

    @describe(answers.TablePage, query=answers.TableQuery)
    def get(self, request: Request, name: str) -> Response:
        table = _table(name)
        sites, period = asked_sites_and_period(request)
        asked = read_query(answers.TableQuery, request.query_params)
        limit = _limit(asked.limit)
        try:
            found = list(rows_of(table, sites, period, after=asked.after, limit=limit))
        except (ValueError, ValidationError):
            raise Unprocessable("TABLE-AFTER", entry=asked.after[:40]) from None
        trail.note_look(request, "table_taken", name, site=_one(sites))
        return Response({"table": name, "columns": [column.name for column in table.columns],
                         "rows": [row for _, row in found], "next": found[-1][0] if len(found) == limit else ""})


class TableFileView(APIView):
    """All rows as a file."""

    @describe(bytes, query=answers.PeriodQuery, gives=tuple(kind.partition(";")[0] for kind in KINDS.values()))
    def get(self, request: Request, name: str, kind: str) -> FileResponse:
        table = _table(name)
        sites, period = asked_sites_and_period(request)
        if kind not in KINDS:
            raise NotFound()
        trail.note_look(request, "table_taken", name, site=_one(sites))
        with tempfile.TemporaryDirectory(prefix="underlid-table-") as folder:
            path = Path(folder) / f"table.{kind}"
            write_file(table, (row for _, row in rows_of(table, sites, period)), path, kind)
            # open still when the folder has gone
            handle = path.open("rb")
        file = f"{name}-{period.first.isoformat()}-{period.last.isoformat()}.{kind}"
        return FileResponse(handle, as_attachment=True, filename=file, content_type=KINDS[kind])


def _one(sites: QuerySet[Site]) -> Site | None:
    few = list(sites[:2])
    return few[0] if len(few) == 1 else None


def _table(name: str) -> Table:
    if name not in TABLES:
        raise NotFound()
    return TABLES[name]


def _limit(entry: str) -> int:
    entry = entry or str(PAGE)
    if not (entry.isdecimal() and entry.isascii() and 1 <= int(entry[:9]) <= PAGE):
        raise Unprocessable("TABLE-LIMIT", entry=entry[:40], most=PAGE)
    return int(entry)
