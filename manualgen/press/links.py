"""Where a print's links lead: to a name, a neighbouring PDF, or the open web.

Chromium writes a link to another file as `file:///…`, the path on the computer
that printed it, and names destinations by their bare ids. Here a link to a
neighbour leads to the neighbour's PDF, and every name begins with its
document's, so that documents can be joined without a clash.
"""

from collections.abc import Iterator
from pathlib import Path
from urllib.parse import quote, unquote, urlsplit
from urllib.request import url2pathname

from pikepdf import Dictionary, Name, Object, Page, Pdf, String

from manualgen.press.tags import name_tree

_NAMED = "nameddest="


def destination(document: str, anchor: str) -> str:
    """The name of an anchor's place among the names of many documents."""
    return f"{document}/{anchor}"


def address(document: str, anchor: str) -> str:
    """Where a document's PDF is, seen from its neighbour, open at an anchor."""
    file = f"{quote(document)}.pdf"
    if not anchor:
        return file
    return f"{file}#{_NAMED}{quote(destination(document, anchor))}"


def read_address(uri: str) -> tuple[str, str] | None:
    """The document, and the destination or nothing, that `address` was made of."""
    parts = urlsplit(uri)
    if parts.scheme or parts.netloc or not parts.path.endswith(".pdf"):
        return None
    document = unquote(parts.path.removesuffix(".pdf"))
    return document, unquote(parts.fragment.removeprefix(_NAMED))


def link_annotations(page: Page) -> Iterator[Object]:
    """The page's link annotations."""
    for annotation in page.obj.get("/Annots", ()):
        if annotation.get("/Subtype") == Name.Link:
            yield annotation


def name_places(pdf: Pdf, document: str) -> None:
    """Begin every destination, and every link to one, with the document's name."""
    places = pdf.Root.get("/Dests")
    if places is not None:
        named = {destination(document, k[1:]): v for k, v in places.items()}
        pdf.Root.Names = Dictionary(Dests=name_tree(named))
        del pdf.Root.Dests
    for page in pdf.pages:
        for link in link_annotations(page):
            if isinstance(link.get("/Dest"), Name):
                link.Dest = String(destination(document, str(link.Dest)[1:]))


def close_files(pdf: Pdf, root: Path) -> None:
    """Let no link lead to a file of this computer: to a neighbour's PDF, or nowhere."""
    for page in pdf.pages:
        for link in link_annotations(page):
            uri = uri_of(link)
            if urlsplit(uri).scheme == "file":
                _redirect(link, uri, root)


def uri_of(link: Object) -> str:
    """The address that a link opens; empty where it leads within the file."""
    return str(link.A.get("/URI", "")) if "/A" in link else ""


def _redirect(link: Object, uri: str, root: Path) -> None:
    parts = urlsplit(uri)
    path = Path(url2pathname(parts.path))
    if path.suffix == ".html" and path.is_relative_to(root):
        link.A.URI = String(address(path.stem, unquote(parts.fragment)))
    else:
        del link.A
