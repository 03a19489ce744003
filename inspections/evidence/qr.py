"""QR codes (ISO/IEC 18004) for paper and screen."""
from typing import Any

import segno


def qr_path(text: str) -> dict[str, Any]:
    """A QR code as an SVG path in a square of ``size`` modules, its quiet zone of 4 included."""
    rows = [*segno.make(text, micro=False, error="m").matrix_iter(border=4)]
    dark = "".join(f"M{x} {y}h1v1h-1z" for y, row in enumerate(rows) for x, is_dark in enumerate(row) if is_dark)
    return {"size": len(rows), "path": dark}
