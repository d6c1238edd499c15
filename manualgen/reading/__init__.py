"""Text to model: the content folder is read once, and nobody meets a token after.

Every fault that reading meets is kept in the model, with the name of the check
that brings it up; nothing that an author writes raises an exception here.
"""

from manualgen.reading.manual import read_manual

__all__ = ["read_manual"]
