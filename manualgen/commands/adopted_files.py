"""Old documents read from disk, and their drafts written, none over another file."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from manualgen.adopting import AdoptError, Draft, OldDocument, adopted, text_document
from manualgen.adopting.draft import Place
from manualgen.adopting.listing import NEW_MANUAL, with_drafts
from manualgen.adopting.names import identity
from manualgen.adopting.piece import PictureFile
from manualgen.adopting.proof import proved
from manualgen.adopting.writing import picture_name
from manualgen.commands.faults import TOOL_FAILED, WRONG_USAGE, CommandError
from manualgen.commands.start import schema_files
from manualgen.sources import Folder

LARGEST_TEXT = 2_000_000
LARGEST_DOCUMENT = 60_000_000
_TEXTS = (".txt", ".md", ".markdown", ".text")
_PICTURES = (".png", ".jpg", ".jpeg", ".svg", ".gif", ".webp")
_OTHERS = "save it as .docx, or as text in .txt or .md"


@dataclass(frozen=True, slots=True)
class Adopted:
    """A draft that was written."""

    identity: str
    file: str
    source: str
    origin: str
    unplaced: int
    """Passages that are not placed yet."""


def adopt_file(path: Path, content: Path) -> tuple[Adopted, ...]:
    """Write the drafts of one document; raises `CommandError` where it cannot be read."""
    try:
        document = _document(path)
        drafts = adopted(document, path.stem)
    except AdoptError as error:
        raise CommandError(f"{path} {error}", WRONG_USAGE) from error
    try:
        return tuple(_write(draft, content) for draft in drafts)
    except OSError as error:
        raise CommandError(
            f"cannot write into {content}: {error.strerror}", TOOL_FAILED
        ) from error


def _document(path: Path) -> OldDocument:
    suffix = path.suffix.lower()
    if suffix == ".docx":
        from manualgen.adopting.word import read_word

        return read_word(path.name, _bytes(path, LARGEST_DOCUMENT))
    if suffix not in _TEXTS:
        raise AdoptError(f"is of a kind that is not read; {_OTHERS}")
    name = path.with_suffix(".md").name if suffix == ".markdown" else path.name
    text = _decoded(_bytes(path, LARGEST_TEXT))
    return text_document(name, text, lambda address: _picture(path, address))


def _bytes(path: Path, limit: int) -> bytes:
    try:
        if not path.is_file():
            raise AdoptError("is no file" if path.exists() else "is not there")
        if path.stat().st_size > limit:
            raise AdoptError(f"is larger than {limit // 1_000_000} MB; part it")
        return path.read_bytes()
    except (OSError, ValueError) as error:
        raise AdoptError("cannot be read") from error


def _decoded(content: bytes) -> str:
    """Text in UTF-8, in UTF-16 with its mark, or as older Windows editors saved it."""
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        return content.decode("utf-16", "replace")
    if b"\0" in content:
        raise AdoptError("is not text: it holds NUL bytes")
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError:
        return content.decode("cp1252", "replace")


def _picture(source: Path, address: str) -> PictureFile | None:
    """A picture that notes name, where it lies beside them or below."""
    try:
        folder = source.parent.resolve()
        path = (folder / address).resolve()
        if not path.is_relative_to(folder) or path.suffix.lower() not in _PICTURES:
            return None
        return PictureFile(path.suffix.lower(), _bytes(path, LARGEST_DOCUMENT))
    except (AdoptError, OSError, ValueError, RuntimeError):
        return None


def _write(draft: Draft, content: Path) -> Adopted:
    content.mkdir(parents=True, exist_ok=True)
    taken = {
        Path(name).stem for name in Folder(content).files() if name.endswith(".md")
    }
    name = identity(draft.title, taken)
    sound, text = proved(draft, name)
    for number, picture in enumerate(sound.pictures, start=1):
        where = content / picture_name(name, number, picture.suffix)
        where.parent.mkdir(parents=True, exist_ok=True)
        with where.open("xb") as file:
            file.write(picture.content)
    path = content / f"{name}.md"
    with path.open("x", encoding="utf-8", newline="\n") as file:
        file.write(text)
    unplaced = len(sound.section(Place.UNPLACED))
    return Adopted(name, path.as_posix(), draft.source, draft.origin, unplaced)


def list_drafts(content: Path, identities: Sequence[str]) -> str:
    """Put drafts on the manual's list, or say how; a manual that is missing is begun."""
    path = content / "manual.yaml"
    try:
        is_new = not path.exists()
        text = NEW_MANUAL if is_new else path.read_bytes().decode("utf-8")
        listed = with_drafts(text, identities)
        if listed is None:
            names = ", ".join(identities)
            return f"{path}: left as it is; list the drafts in a part: [{names}]"
        path.write_bytes(listed.encode("utf-8"))
        if is_new:
            _add_schemas(content.resolve().parent)
    except (OSError, UnicodeDecodeError) as error:
        raise CommandError(f"cannot list the drafts in {path}", TOOL_FAILED) from error
    what = "begun, with the drafts" if is_new else "the drafts are added"
    return f"{path}: {what} in its part Drafts"


def _add_schemas(folder: Path) -> None:
    """Put the schemas that editors use beside a content folder, over none of yours."""
    for name, text in schema_files():
        path = folder / name
        if not path.exists():
            path.parent.mkdir(exist_ok=True)
            path.write_text(text, encoding="utf-8")
