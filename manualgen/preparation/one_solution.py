"""One solution by itself: how it is made, how it keeps, what its label says."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from manualgen.editions.wording import Wording
from manualgen.knowledge import Chemical, Precaution, classify, label_statements
from manualgen.knowledge.labels import ENGLISH
from manualgen.model.place import Place
from manualgen.preparation.filling import keeping_words
from manualgen.preparation.instructions import Instructions
from manualgen.preparation.making import Making, making_of
from manualgen.preparation.making_actions import cautions_of
from manualgen.preparation.rules import measures
from manualgen.preparation.sizes import is_flask_size
from manualgen.preparation.solutions import Solution
from manualgen.preparation.volumes import solute_of
from manualgen.preparation.words import Writer
from manualgen.quantities import HouseStyle, Quantity, Units
from manualgen.working.laboratory import Laboratory
from manualgen.working.listed import Identity

_NOWHERE = Place("", 0, 0)
_HOUSE = HouseStyle(units=Units.SOLIDUS)


@dataclass(frozen=True, slots=True)
class OneSolution:
    """A solution that was asked for, and how it is made."""

    identity: Identity
    chemical: Chemical
    strength: Quantity
    volume: Fraction
    """In cm³."""
    making: Making

    @property
    def instructions(self) -> Instructions:
        """Its instructions, in English and with a solidus in units."""
        needless = Solution(
            self.identity, None, (), self.volume, self.making, code=self.identity.name
        )
        return Instructions(needless, self.making, WRITER)

    def weighed(self) -> tuple[str, ...]:
        """What is put on the balance."""
        finest = WRITER.mass(measures().finer, measures().finer)
        fine = any(b.finer for b in self.making.batches)
        balance = f", on a balance reading to {finest}" if fine else ""
        return tuple(
            f"Weigh {w.mass} of {w.what}{balance}."
            for w in self.instructions.weighings()
        )

    def steps(self) -> tuple[str, ...]:
        """What is done, in order; of several makings each by itself."""
        told = self.instructions
        several = len(self.making.batches) > 1
        found: list[str] = [*self.weighed()]
        for n, batch in enumerate(self.making.batches):
            made = f"Making {n + 1}, {WRITER.volume(batch.volume)}:"
            found += [made] if several else []
            found += told.steps(n)
        return (*found, *told.together(), *told.standardised(), *self._not_exact())

    def cautions(self) -> tuple[str, ...]:
        """What to wear and watch while it is made."""
        return cautions_of(self.making.start)

    def keeping(self) -> tuple[str, ...]:
        """The bottle, and how long it keeps."""
        keeping = self.instructions.solution.keeping
        return tuple(keeping_words(keeping, WRITER))

    def precautions(self) -> tuple[Precaution, ...]:
        """At most six precautionary statements for its label."""
        found = self.identity.classification
        return label_statements(found.classes) if found else ()

    def _not_exact(self) -> tuple[str, ...]:
        odd = [b for b in self.making.batches if not is_flask_size(b.volume)]
        if not (self.making.exact and odd):
            return ()
        sizes = ", ".join(str(int(s)) for s in measures().makings)
        return (
            "No volumetric flask is of this volume, and a measuring cylinder does not "
            f"give three figures: ask for one of {sizes} cm³ if they count.",
        )


WRITER = Writer(Wording(_HOUSE, ENGLISH))


def one_solution(
    chemical: Chemical, strength: Quantity, volume: Fraction
) -> OneSolution:
    """A volume, in cm³, of a solution of a strength.

    Raises `CannotMakeError` where it cannot be made, and `StrengthError` where
    the quantity is no strength of the chemical.
    """
    solute = solute_of(chemical, Laboratory().store)
    largest = measures().makings[-1]
    full, rest = divmod(volume, largest)
    volumes = (largest,) * int(full) + ((rest,) if rest else ())
    making = making_of(solute, strength, volumes)
    identity = Identity(
        chemical.name, _NOWHERE, chemical, strength, classify(chemical, strength)
    )
    return OneSolution(identity, chemical, strength, volume, making)
