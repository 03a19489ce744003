"""What every file that came from outside is sent with: no browser may run anything in it as part of the app.

The content type is ours, never the sender's; the browser may not guess another; and should it open the file as
a page all the same, that page has no script, no form, no origin, and may fetch nothing.

Source: W3C Content Security Policy Level 3, 6.3.2 (sandbox).
"""
AS_DATA = {
    "X-Content-Type-Options": "nosniff",
    "Content-Security-Policy": "sandbox; default-src 'none'; frame-ancestors 'none'",
    "Cross-Origin-Resource-Policy": "same-origin",
}
#: What browsers show as a picture and nothing else; every other kind is offered to be saved.
SHOWN = {"image/jpeg": "jpg", "image/png": "png", "image/webp": "webp"}


def picture_headers(content_type: str, name: str) -> dict[str, str]:
    """Headers for a photo or a picture made from one; ``name`` is plain letters and digits, without ending."""
    ending = SHOWN.get(content_type)
    how = f'inline; filename="{name}.{ending}"' if ending else f'attachment; filename="{name}.bin"'
    return {**AS_DATA, "Content-Disposition": how}
