"""A word processor's file before anything in it is read: a bounded ZIP of plain XML.

The file may come from anybody. Its parts are counted and measured before they
are unpacked, and XML that declares entities of its own is refused.
"""

from __future__ import annotations

import io
import re
import zipfile
import zlib

from manualgen.adopting.piece import AdoptError

MOST_PARTS = 3000
LARGEST_PART = 25_000_000
"""Bytes of one part, unpacked."""
LARGEST = 80_000_000
"""Bytes of all parts, unpacked."""
_OLD = b"\xd0\xcf\x11\xe0"
_DECLARES = re.compile(rb"<!\s*(?:DOCTYPE|ENTITY)", re.IGNORECASE)


def check_package(content: bytes) -> None:
    """Raise `AdoptError` for what is no word processor's file, or no harmless one."""
    if content.startswith(_OLD):
        raise AdoptError(
            "is of the old kind, or has a password; open it and save it as .docx"
        )
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as package:
            _check_parts(package)
    except (zipfile.BadZipFile, zlib.error, EOFError, ValueError, OSError) as error:
        raise AdoptError("is no word processor's document, or is damaged") from error
    except RuntimeError as error:
        # zipfile raises it for a password, and a kind of it for a compression that
        # it cannot undo.
        raise AdoptError("is packed in a way that is not read, or encrypted") from error


def _check_parts(package: zipfile.ZipFile) -> None:
    parts = package.infolist()
    if len(parts) > MOST_PARTS:
        raise AdoptError(f"has more than {MOST_PARTS} parts")
    if any(p.file_size > LARGEST_PART for p in parts) or (
        sum(p.file_size for p in parts) > LARGEST
    ):
        raise AdoptError("is too large when it is unpacked")
    if "[Content_Types].xml" not in package.namelist():
        raise AdoptError("is no word processor's document")
    for part in parts:
        # Reading to the end proves the checksum too, of pictures as of text.
        with package.open(part) as file:
            body = file.read(LARGEST_PART + 1)
        if part.filename.lower().endswith((".xml", ".rels")) and _declares(body):
            raise AdoptError("declares entities in its XML, which is not read")


def _declares(body: bytes) -> bool:
    narrow = body.replace(b"\0", b"")
    return bool(_DECLARES.search(narrow))
