"""Pictures: from inside the content folder, there, and only pictures."""

from __future__ import annotations

import re

from manualgen.model.place import Place
from manualgen.model.text import Picture
from manualgen.reading.links import nearest_file
from manualgen.reading.surroundings import Surroundings
from manualgen.sources import SourceError, resolved

PICTURES = (".png", ".jpg", ".jpeg", ".svg", ".gif", ".webp")

_ACTIVE_SVG = re.compile(
    rb"<\s*(?:script|foreignObject|iframe|animate|set)\b|\bon[a-z]+\s*=|javascript:"
    rb"|<!ENTITY|<\?xml-stylesheet|@import|(?:href|src)\s*=\s*[\"'](?!#|data:image/(?:png|jpeg))"
    rb"|url\(\s*[\"']?(?!#)",
    re.IGNORECASE,
)


def read_picture(
    address: str, description: str, place: Place, around: Surroundings
) -> Picture | None:
    """The picture, or None where it is refused or missing, which is noted."""
    faults = around.faults
    path = resolved(around.text.path, address)
    if path is None or ":" in address or not address:
        message = f"the picture {address!r} lies outside the content folder"
        faults.syntax(place, message, "copy it into content/images")
        return None
    if not path.lower().endswith(PICTURES):
        faults.syntax(
            place, f"{address!r} is no picture; known are {', '.join(PICTURES)}"
        )
        return None
    if not around.source.exists(path):
        _note_missing(address, place, around)
        return None
    if path.lower().endswith(".svg") and _is_active(path, around):
        faults.syntax(
            place, f"{address!r} holds a script or an address; save it as plain SVG"
        )
        return None
    return Picture(path, description, place)


def _note_missing(address: str, place: Place, around: Surroundings) -> None:
    pictures = tuple(f for f in around.source.files() if f.lower().endswith(PICTURES))
    near = nearest_file(address, around, pictures)
    message = f"there is no picture {address!r}"
    around.faults.note("unknown-reference", place, message, near)


def _is_active(path: str, around: Surroundings) -> bool:
    try:
        return bool(_ACTIVE_SVG.search(around.source.read(path)))
    except SourceError:
        return True
