"""A logger file as a download, byte for byte as it came."""
from django.http import FileResponse

from inspections.records import storage
from inspections.records.models import LoggerFile
from inspections.user_files import AS_DATA


def logger_download(row: LoggerFile) -> FileResponse:
    """The file to be kept, never shown by the browser, whatever is in it.

    Raises
    ------
    FileNotFoundError
        The file is gone from the storage.
    """
    return FileResponse(
        storage.photos().open(row.stored_name, "rb"), as_attachment=True, filename=row.file_name,
        content_type="application/octet-stream",
        headers={**AS_DATA, "Cache-Control": "private, no-cache"},
    )
