"""Pictures: from inside the content folder, there, and only pictures."""

from __future__ import annotations

from manualgen.model.place import Place
from manualgen.model.text import Picture
from manualgen.reading.drawn import is_still
from manualgen.reading.links import nearest_file
from manualgen.reading.surroundings import Surroundings
from manualgen.sources import SourceError, resolved

PICTURES = (".png", ".jpg", ".jpeg", ".svg", ".gif", ".webp")


def read_picture(
    address: str, description: str, place: Place, around: Surroundings
) -> Picture:
    """The picture; what is wrong with it is noted, and a refused one has no file."""
    if "[_" in description:
        message = "a blank in a picture's description would show its words"
        around.faults.syntax(place, message, "put it into the caption")
        description = ""
    path = resolved(around.text.path, address)
    fault = _refusal(address, path)
    if fault or path is None:
        around.faults.syntax(place, fault, "copy it into content/images")
        return Picture("", description, place)
    if not around.source.exists(path):
        _note_missing(address, place, around)
    elif path.lower().endswith(".svg") and _is_active(path, around):
        message = f"{address!r} holds a script, an address or something that moves"
        around.faults.syntax(place, message, "save it as plain SVG")
        return Picture("", description, place)
    return Picture(path, description, place)


def _refusal(address: str, path: str | None) -> str:
    """Why an address cannot be a picture's, or nothing."""
    if path is None or ":" in address or not address:
        return f"the picture {address!r} lies outside the content folder"
    if not path.lower().endswith(PICTURES):
        return f"{address!r} is no picture; known are {', '.join(PICTURES)}"
    return ""


def _note_missing(address: str, place: Place, around: Surroundings) -> None:
    pictures = tuple(f for f in around.source.files() if f.lower().endswith(PICTURES))
    near = nearest_file(address, around, pictures)
    message = f"there is no picture {address!r}"
    around.faults.note("unknown-reference", place, message, near)


def _is_active(path: str, around: Surroundings) -> bool:
    try:
        return not is_still(around.source.read(path))
    except SourceError:
        return True
