"""How one manual says things: its house style and the tool's words in its language."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from manualgen.knowledge.label import hazard_statements
from manualgen.knowledge.labels import Say, labels, primary_of
from manualgen.knowledge.precautions import precautionary_statements
from manualgen.model.lab import Sharing, Strength, StrengthWord
from manualgen.model.manual import Settings
from manualgen.quantities import HouseStyle, Quantity, printed


@dataclass(frozen=True, slots=True)
class Wording:
    """What everything that is printed is worded with."""

    house: HouseStyle
    say: Say
    language: str = "en"

    def strength(self, strength: Strength | Quantity | str | None) -> str:
        """A strength in the house style, or the word for it; empty where there is none."""
        value = strength.value if isinstance(strength, Strength) else strength
        match value:
            case Quantity():
                return printed(value, self.house)
            case StrengthWord() | str():
                return self.say.get(str(value), str(value))
            case None:
                return ""

    def shared(self, sharing: Sharing) -> str:
        """``2 per class`` in the manual's language."""
        key = sharing.by.value.replace(" ", "_")
        return self.say[key].format(number=sharing.number)

    def hazard_statements(self) -> Mapping[str, str]:
        """The texts of the H statements, by code."""
        return hazard_statements(self.language)

    def precautionary_statements(self) -> Mapping[str, str]:
        """The texts of the P statements, by code."""
        return precautionary_statements(self.language)

    def heading(self, heading: str) -> str:
        """A section's heading: the format's own in the manual's language."""
        key = "heading_" + "_".join(heading.casefold().split())
        return self.say.get(key, heading)


def wording_of(settings: Settings) -> Wording:
    """The wording that a manual's settings ask for."""
    say = labels(settings.language, settings.labels)
    house = replace(settings.house, to=say["to"])
    return Wording(house, say, primary_of(settings.language))
