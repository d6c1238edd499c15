"""From old documents and notes to drafts in the format, by rules and word lists alone."""

from manualgen.adopting.adopt import adopted, text_document
from manualgen.adopting.draft import Draft
from manualgen.adopting.piece import AdoptError, OldDocument
from manualgen.adopting.writing import written

__all__ = ["AdoptError", "Draft", "OldDocument", "adopted", "text_document", "written"]
