"""Where in a draft the parts of a source stand."""

from __future__ import annotations

from manualgen.adopting.draft import Place
from manualgen.adopting.vocabulary import Part

PLACES = {
    Part.AIM: Place.AIM,
    Part.THEORY: Place.THEORY,
    Part.CONCLUSION: Place.CONCLUSION,
    Part.DISPOSAL: Place.DISPOSAL,
    Part.TEACHER: Place.TEACHER,
    Part.PREPARATION: Place.PREPARATION,
}
"""The places of parts that are paragraphs."""
KEPT_AT = {p: Place[p.name] for p in (*PLACES, Part.METHOD, Part.OBSERVATIONS)}
"""The places of tables and pictures that stand in a part."""
