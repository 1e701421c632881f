"""Headers that every answer carries."""

from __future__ import annotations

POLICY = "; ".join(
    [
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self'",
        "connect-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    ]
)
"""Nothing inline, nothing from elsewhere."""

PICTURE_POLICY = "default-src 'none'; style-src 'unsafe-inline'"
"""For a picture opened by itself: its own colours, and nothing that runs."""

ALWAYS = {
    "content-security-policy": POLICY,
    "x-content-type-options": "nosniff",
    "referrer-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "camera=(), microphone=(), geolocation=()",
    "cache-control": "no-store",
}


def with_policy(headers: list[tuple[bytes, bytes]]) -> list[tuple[bytes, bytes]]:
    """An answer's headers, with what it does not itself say."""
    said = {name.lower() for name, _ in headers}
    return [*headers, *((name.encode(), value.encode()) for name, value in ALWAYS.items() if name.encode() not in said)]
