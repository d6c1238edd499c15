"""Where links lead: to a name, to another experiment, or outside by https.

Everything else is refused by not being one of these, so that no address can be
dressed up as something harmless.
"""

from __future__ import annotations

import posixpath
import re

from manualgen.model.nearest import nearest
from manualgen.model.place import Place
from manualgen.model.text import Inline, Inlines, OutsideLink, Reference
from manualgen.reading.surroundings import Surroundings
from manualgen.sources import resolved

_OUTSIDE = re.compile(
    r"https://(?![^/?#]*@)[^\s<>\"'`\\\x00-\x20\x7f-\x9f]+", re.IGNORECASE
)
"""An address without a user's name, which would stand where the host is looked for."""
_SCHEME = re.compile(r"[^/?#]*:")
NAME = re.compile(r"[A-Za-z0-9](?:[A-Za-z0-9_-]*[A-Za-z0-9])?", re.ASCII)
"""What a step, table or box may be called."""


def read_link(
    address: str, content: Inlines, place: Place, around: Surroundings
) -> tuple[Inline, ...]:
    """The link, or its text alone where the address is refused and noted."""
    if _OUTSIDE.fullmatch(address):
        return (OutsideLink(content, address, place),)
    path, _, name = address.partition("#")
    if _SCHEME.match(address) or address.startswith(("/", "\\")):
        message = f"a link to {address!r} is not followed; only https addresses are"
        around.faults.syntax(place, message)
        return content
    if name and not NAME.fullmatch(name):
        around.faults.syntax(place, f"#{name} is no name: letters, digits and hyphens")
        return content
    if not path:
        return _to_name(name, content, place, around)
    return _to_experiment(path, name or None, content, place, around)


def _to_name(
    name: str, content: Inlines, place: Place, around: Surroundings
) -> tuple[Inline, ...]:
    if name:
        return (Reference(content, None, name, place),)
    around.faults.syntax(place, "this link leads nowhere; write #name or a file")
    return content


def _to_experiment(
    path: str, name: str | None, content: Inlines, place: Place, around: Surroundings
) -> tuple[Inline, ...]:
    target = resolved(around.text.path, path)
    stem = posixpath.basename(path).removesuffix(".md")
    if target is None:
        around.faults.syntax(
            place, f"the link {path!r} leads out of the content folder"
        )
        return content
    if not path.endswith(".md"):
        message = "a link leads to a #name, an experiment's file or an https address"
        mend = f"{path}.md" if stem in around.files else None
        if mend is None and NAME.fullmatch(path):
            mend = f"#{path}"
        around.faults.syntax(place, message, mend)
        return content
    if stem in around.files and around.files[stem] != target:
        _note_wrong_folder(path, stem, place, around)
    return (Reference(content, stem, name, place),)


def _note_wrong_folder(
    path: str, stem: str, place: Place, around: Surroundings
) -> None:
    right = posixpath.relpath(
        around.files[stem], posixpath.dirname(around.text.path) or "."
    )
    message = f"there is no file {path!r} as seen from here"
    around.faults.note("unknown-reference", place, message, right)


def nearest_file(path: str, around: Surroundings, known: tuple[str, ...]) -> str | None:
    """The file that ``path`` was probably meant for, as seen from this one."""
    target = resolved(around.text.path, path) or path
    near = nearest(target, known)
    if near is None:
        return None
    return posixpath.relpath(near, posixpath.dirname(around.text.path) or ".")
