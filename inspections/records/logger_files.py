"""The read path of logger files: what desk and pages are told of them."""
from django.db.models import QuerySet

from inspections.people.models import Site
from inspections.records.models import Delivery, LoggerFile


def logger_files_of(delivery: Delivery) -> list[LoggerFile]:
    """The logger files of a delivery, in the order they came in."""
    return list(LoggerFile.objects.filter(delivery=delivery).select_related("person", "delivery__site"))


def logger_file_at(sites: QuerySet[Site], file_id) -> LoggerFile | None:
    """A logger file of a delivery of those sites, if there is one of that id."""
    rows = LoggerFile.objects.filter(delivery__site__in=sites).select_related("person", "delivery__site")
    return rows.filter(pk=file_id).first()


def read_anew(rows: list[LoggerFile]) -> set:
    """Ids of readings of a file that was read again later with other answers, such as another clock."""
    last = {row.sha256: row.pk for row in rows}
    return {row.pk for row in rows if last[row.sha256] != row.pk}


def logger_file_json(row: LoggerFile) -> dict:
    """A logger file as the desk gets it."""
    return {
        "id": str(row.pk),
        "delivery_id": str(row.delivery_id),
        "file_name": row.file_name,
        "sha256": row.sha256,
        "bytes": row.bytes,
        "at": row.at.isoformat(),
        "person": str(row.person),
        "zone_assumed": row.zone_assumed,
        "answers": row.answers,
        "method_version": row.method_version,
        "reading": row.reading,
        "file": f"/api/logger-files/{row.pk}/file",
    }
