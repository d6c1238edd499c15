"""Makes a print the same bytes whenever, wherever and in whichever browser.

A PDF as Chromium gives it holds the time, the browser's name, paths of the
computer, and numbers that depend on what the browser printed before. None of
these is the document's: they go, or are put in terms of the document.
"""

import io
from datetime import UTC, datetime
from pathlib import Path
from xml.sax.saxutils import escape

from pikepdf import Name, ObjectStreamMode, Pdf, Stream, String

from manualgen.press.jobs import Finished
from manualgen.press.links import close_files, name_places
from manualgen.press.places import places_of
from manualgen.press.tags import tidy_tags

PRODUCER = "manualgen"

_XMP = """<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/">
<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/">
<dc:title><rdf:Alt><rdf:li xml:lang="x-default">{title}</rdf:li></rdf:Alt></dc:title>
</rdf:Description>
</rdf:RDF>
</x:xmpmeta>
<?xpacket end="r"?>
"""


def normalise(raw: bytes, name: str, root: Path, when: datetime) -> Finished:
    """The print with tags in order, links made relative, and its origin gone.

    `name` is the document's, `root` the folder that it was printed from, and
    `when` the date that the PDF is to bear.
    """
    with Pdf.open(io.BytesIO(raw)) as pdf:
        tidy_tags(pdf, name)
        name_places(pdf, name)
        close_files(pdf, root.resolve())
        title = str(pdf.docinfo.get("/Title", name))
        set_metadata(pdf, title, when)
        return Finished(to_bytes(pdf), places_of(pdf))


def set_metadata(pdf: Pdf, title: str, when: datetime) -> None:
    """State the title and the date, in both of a PDF's places, and nothing else."""
    date = String(pdf_date(when))
    for key in list(pdf.docinfo.keys()):
        del pdf.docinfo[key]
    pdf.docinfo[Name.Title] = String(title)
    pdf.docinfo[Name.Producer] = String(PRODUCER)
    pdf.docinfo[Name.CreationDate] = date
    pdf.docinfo[Name.ModDate] = date
    xmp = Stream(pdf, _XMP.format(title=escape(title)).encode())
    xmp.Type, xmp.Subtype = Name.Metadata, Name.XML
    pdf.Root.Metadata = xmp


def pdf_date(when: datetime) -> str:
    """A date as ISO 32000-1, 7.9.4, writes it, in UTC."""
    return when.astimezone(UTC).strftime("D:%Y%m%d%H%M%SZ")


def to_bytes(pdf: Pdf) -> bytes:
    """The file, its identifier made of its content."""
    buffer = io.BytesIO()
    pdf.save(
        buffer,
        deterministic_id=True,
        object_stream_mode=ObjectStreamMode.generate,
    )
    return buffer.getvalue()
