"""What a drawing in SVG may hold: shapes, words and colours, and nothing that acts.

The file comes from anybody, and a browser runs what it holds when it is opened
by itself.  So it is read as a browser reads it, by an XML parser and in its own
encoding, and refused unless all of it is known to be still: the elements below,
no event, no address but of a part of the drawing itself or of a picture inside
it.  Elements are SVG 2's (W3C, 2018) that neither run, load nor move; what a
drawing program notes for itself in a namespace of its own does nothing.
"""

from __future__ import annotations

import re
from xml.parsers import expat

SVG = "http://www.w3.org/2000/svg"
_STILL = re.compile(
    "svg|g|defs|symbol|marker|clipPath|mask|pattern|linearGradient|radialGradient|stop"
    "|path|rect|circle|ellipse|line|polyline|polygon|text|tspan|textPath|title|desc"
    "|metadata|style|switch|use|image|filter|fe(?:Blend|ColorMatrix|ComponentTransfer"
    "|Composite|ConvolveMatrix|DiffuseLighting|DisplacementMap|DistantLight|DropShadow"
    "|Flood|Func[ABGR]|GaussianBlur|Merge|MergeNode|Morphology|Offset|PointLight"
    "|SpecularLighting|SpotLight|Tile|Turbulence)"
)
_NOTES = (
    "http://www.inkscape.org/",
    "http://sodipodi.sourceforge.net/",
    "http://www.w3.org/1999/02/22-rdf-syntax-ns#",
    "http://purl.org/dc/",
    "http://creativecommons.org/ns#",
    "http://web.resource.org/cc/",
)
"""Namespaces of what drawing programs and libraries note; no browser acts on them."""

_INSIDE = re.compile(r"#|data:image/(?:png|jpeg);base64,")
_CALL = r"\\|url\((?!\s*[\"']?#)|image-set\("
_CALLS = re.compile(_CALL, re.IGNORECASE)
"""What loads in a value of CSS, or hides behind a backslash there."""
_STYLE = re.compile(rf"{_CALL}|@|src\(", re.IGNORECASE)
_DEEPEST = 200


class _ActiveError(Exception):
    """Something that a drawing may not hold."""


def is_still(content: bytes) -> bool:
    """Whether a file is an SVG drawing that neither runs, loads nor moves anything."""
    reader = _Reader()
    try:
        reader.read(content)
    except (_ActiveError, expat.ExpatError, LookupError, ValueError):
        return False
    return True


class _Reader:
    """Looks at each element and each piece of style in turn."""

    def __init__(self) -> None:
        self._open: list[str] = []
        self._style = ""

    def read(self, content: bytes) -> None:
        parser = expat.ParserCreate(namespace_separator=" ")
        parser.StartElementHandler = self._begin
        parser.EndElementHandler = self._end
        parser.CharacterDataHandler = self._take
        parser.ProcessingInstructionHandler = _refuse
        parser.EntityDeclHandler = _refuse
        parser.Parse(content, True)

    def _begin(self, name: str, attributes: dict[str, str]) -> None:
        if not self._open and name != f"{SVG} svg":
            raise _ActiveError
        self._open.append(name)
        if len(self._open) > _DEEPEST or not _is_known(name):
            raise _ActiveError
        for key, value in attributes.items():
            _judge(key, value)

    def _end(self, _: str) -> None:
        if self._open.pop() == f"{SVG} style" and _STYLE.search(self._style):
            raise _ActiveError

    def _take(self, words: str) -> None:
        if self._open[-1] == f"{SVG} style":
            self._style += words


def _is_known(name: str) -> bool:
    namespace, _, local = name.rpartition(" ")
    return (namespace == SVG and bool(_STILL.fullmatch(local))) or namespace.startswith(
        _NOTES
    )


def _judge(key: str, value: str) -> None:
    namespace, _, name = key.casefold().rpartition(" ")
    if namespace.startswith(_NOTES):
        return
    if name.startswith("on") or name in ("src", "base"):
        raise _ActiveError
    if name == "href" and not _INSIDE.match(value.strip()):
        raise _ActiveError
    if _STYLE.search(value) if name == "style" else _loads(value):
        raise _ActiveError


def _loads(value: str) -> bool:
    return "(" in value and bool(_CALLS.search(value))


def _refuse(*_: object) -> None:
    raise _ActiveError
