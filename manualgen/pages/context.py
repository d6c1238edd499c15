"""What a page needs to know beside its sheet and its key."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from urllib.parse import quote

from manualgen.knowledge.labels import OwnLabels, Say, labels
from manualgen.model.manual import Paper, Settings
from manualgen.pages.typeset import curled
from manualgen.quantities import HouseStyle


@dataclass(frozen=True, slots=True)
class Neighbour:
    """The experiment before or after this one."""

    id: str
    number: str
    title: str


@dataclass(frozen=True, slots=True)
class PageContext:
    """The manual that a page belongs to, and the paper it is printed on."""

    manual: str
    """The manual's title."""
    edition: str
    """Whose edition it is, as the foot of the page says it."""
    institution: str = ""
    year: str = ""
    """``2026-27``: the manual's own word for its edition."""
    language: str = "en-GB"
    own_labels: OwnLabels = ()
    """The department's own words for the tool's."""
    paper: Paper = Paper.A4
    duplex: bool = False
    large: bool = False
    """Large print, 18 point."""
    snug: bool = False
    """Set closer, for an experiment that would else end on a nearly empty page."""
    house: HouseStyle = field(default_factory=HouseStyle)
    before: Neighbour | None = None
    after: Neighbour | None = None
    pdf: str | None = None
    """The address of this page's PDF, if there is one."""
    cards: str | None = None
    """The address of its station cards, if it has any."""

    @property
    def say(self) -> Say:
        """The tool's own words in the manual's language."""
        return labels(self.language, self.own_labels)

    @property
    def foot(self) -> str:
        """What stands at the foot of every page: whose, of which year and for whom."""
        return " · ".join(
            part for part in (self.institution, self.year, self.edition) if part
        )

    def address(self, experiment: str) -> str:
        """Where another experiment's page stands, seen from this one."""
        return f"{experiment}.html"

    def picture(self, file: str) -> str:
        """Where a picture of the content folder stands, seen from this page."""
        return f"assets/{quote(file)}"


def context_for(settings: Settings, edition: str) -> PageContext:
    """What a manual gives every page of an edition: ``student``, ``technician``."""
    say = labels(settings.language, settings.labels)
    return PageContext(
        manual=curled(settings.title),
        edition=say[f"{edition}_edition"],
        institution=curled(settings.institution),
        year=settings.edition,
        language=settings.language,
        own_labels=settings.labels,
        paper=settings.paper,
        duplex=settings.duplex,
        house=replace(settings.house, to=say["to"]),
    )
