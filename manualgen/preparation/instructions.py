"""How one solution is made, in sentences: what to weigh, how to dissolve or dilute.

Concentrated acid goes into water: two thirds of the water stand ready in a cold
bath, the acid is added slowly, and only the cooled solution goes into a flask.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from manualgen.preparation.batch import Added, Batch
from manualgen.preparation.making import Making
from manualgen.preparation.rules import (
    dissolves_otherwise,
    dissolving_words,
    heats_up,
    heats_water,
    loses_strength,
    measures,
    strong_cautions,
)
from manualgen.preparation.shelf import StartKind
from manualgen.preparation.sizes import by_cylinder, exactly, rounded_to
from manualgen.preparation.solutions import Solution
from manualgen.preparation.standardising import found_by
from manualgen.preparation.words import Writer
from manualgen.quantities import Quantity

_TWO_THIRDS = Fraction(2, 3)
_STEPS = ((Fraction(500), Fraction(50)), (Fraction(100), Fraction(10)))
"""From so much water on, how finely a beaker shows two thirds of it, in cm³."""
_FINEST = Fraction(5)


@dataclass(frozen=True, slots=True)
class Weighing:
    """One thing to put on the balance."""

    code: str
    what: str
    mass: str
    into: str


@dataclass(frozen=True, slots=True)
class Instructions:
    """The sentences for one solution; its code marks what belongs to it."""

    solution: Solution
    making: Making
    writer: Writer

    @property
    def from_solid(self) -> bool:
        """Whether something is weighed for it."""
        return self.making.start.kind is StartKind.SOLID

    @property
    def cautions(self) -> tuple[str, ...]:
        """How a concentrated stock is handled; nothing for any other."""
        start = self.making.start
        return strong_cautions(start.chemical, start.percent) if start.percent else ()

    def mark(self, batch: int) -> str:
        """The code of a making: ``A``, or ``A1`` where there are several."""
        several = len(self.making.batches) > 1
        return f"{self.solution.code}{batch + 1}" if several else self.solution.code

    def weighings(self) -> Iterator[Weighing]:
        """Each thing to weigh."""
        for n, batch in enumerate(self.making.batches):
            if batch.mass is None:
                continue
            code = self.mark(n)
            reads = measures().finer if batch.finer else measures().reads
            mass = self.writer.mass(batch.mass, reads)
            what = self.writer.start(self.making.start)
            yield Weighing(code, what, mass, self._into(batch, code))
            for added in batch.also:
                if added.mass is not None:
                    into = self.writer.say("into_other", code=code)
                    mass = self.writer.mass(added.mass)
                    yield Weighing(code, self.writer.rule(added.name), mass, into)

    def steps(self, n: int) -> tuple[str, ...]:
        """How a making is made up, sentence by sentence."""
        batch = self.making.batches[n]
        if not self.from_solid:
            return tuple(self._diluted(batch))
        if self.making.filtered:
            return tuple(self._saturated(batch))
        return tuple(self._dissolved(batch, self.mark(n)))

    def together(self) -> tuple[str, ...]:
        """What is done when every making is made up."""
        number = len(self.making.batches)
        return (self.writer.say("mix_makings", number=number),) if number > 1 else ()

    def standardised(self) -> tuple[str, ...]:
        """How its strength is found, where making it does not fix it."""
        standard, strength = self.making.standard, self.solution.identity.strength
        if standard is None or not isinstance(strength, Quantity):
            return ()
        say, rule = self.writer.say, self.writer.rule
        fresh = loses_strength(self.making.start.chemical)
        bought = "or_bought_fresh" if fresh else "or_bought"
        return (
            say("against", against=rule(standard.against), why=rule(standard.why)),
            *found_by(standard, strength, self.writer),
            say("write_found"),
            say(bought, strength=self.writer.quantity(strength)),
        )

    def _into(self, batch: Batch, code: str) -> str:
        finest = self.writer.mass(measures().finer, measures().finer)
        if batch.finer:
            return self.writer.say("into_finer", code=code, reads=finest)
        name = "into_strong" if batch.strong_for else "into_beaker"
        return self.writer.say(name, code=code)

    @property
    def _solvent(self) -> str:
        solvent = self.solution.solvent
        if solvent is None:
            return self.writer.say("water")
        code = self.solution.solvent_code
        return self.writer.solution(solvent) + (f" ({code})" if code else "")

    # ---- solids

    def _dissolved(self, batch: Batch, code: str) -> Iterator[str]:
        say, chemical = self.writer.say, self.making.start.chemical
        made = batch.strong_for or batch.volume
        in_water = self.solution.solvent is None
        liquids = [a for a in batch.also if a.volume is not None]
        if liquids:
            yield from (self._in_liquid(added) for added in liquids)
        elif not (in_water and dissolves_otherwise(chemical)):
            name = "dissolve_slowly" if heats_water(chemical) else "dissolve_in"
            first = self.writer.volume(first_part(made))
            yield say(name, first=first, solvent=self._solvent)
        words = dissolving_words(chemical) if in_water else ""
        if words and not liquids:
            yield self.writer.rule(words)
        yield self._made_up(made, in_flask=batch.in_flask or bool(batch.strong_for))
        if batch.strong_for:
            yield from self._down_from_strong(batch, code)

    def _saturated(self, batch: Batch) -> Iterator[str]:
        volume = self.writer.volume(batch.volume)
        yield self.writer.say("saturate", volume=volume, solvent=self._solvent)
        yield self.writer.say("clear_off")

    def _in_liquid(self, added: Added) -> str:
        volume = self.writer.volume(added.volume or Fraction(0))
        liquid = self.writer.rule(added.name)
        return self.writer.say("dissolve_liquid", volume=volume, liquid=liquid)

    def _down_from_strong(self, batch: Batch, code: str) -> Iterator[str]:
        say = self.writer.say
        if batch.dilutions:
            times = 10 ** (batch.dilutions + 1)
            yield say("stronger_first", code=code, times=times)
            yield from self._further(batch.dilutions)
        else:
            yield say("strong_first", code=code)
        yield self._measured(batch, say("the_last" if batch.dilutions else "the_first"))

    def _made_up(
        self, volume: Fraction, *, in_flask: bool, only_then: bool = False
    ) -> str:
        name = "to_mark" if in_flask else "to_line"
        return self.writer.say(
            f"cooled_{name}" if only_then else name,
            volume=self.writer.volume(volume),
            solvent=self._solvent,
            cylinder=self._cylinder(volume),
        )

    # ---- stocks

    @property
    def _called(self) -> str:
        """What is measured: a stock, or a stronger solution by its code."""
        stronger = self.solution.stronger
        if stronger is None:
            return self.writer.rule(self.making.start.called)
        return f"{self.writer.solution(stronger.identity)} ({stronger.code})"

    def _diluted(self, batch: Batch) -> Iterator[str]:
        say, called = self.writer.say, self._called
        if batch.is_straight:
            yield say("used_straight", volume=self.writer.volume(batch.volume))
        elif batch.dilutions:
            yield say("dilute_first")
            yield from self._first(measures().take, measures().make, in_flask=True)
            yield from self._further(batch.dilutions - 1)
            last = "the_first" if batch.dilutions == 1 else "the_last"
            yield self._measured(batch, say(last))
        elif self.cautions and batch.measured:
            taken = batch.measured.total
            yield from self._first(taken, batch.volume, in_flask=batch.in_flask)
        else:
            yield self._measured(batch, called)

    def _first(
        self, taken: Fraction, made: Fraction, *, in_flask: bool
    ) -> Iterator[str]:
        """A stock into water; a concentrated one in the order that is due to it."""
        writer, start = self.writer, self.making.start
        called = self._called
        standard = start.is_standard and self.making.exact
        measured = exactly(taken) if standard else by_cylinder(taken)
        if not self.cautions:
            yield self._measured(Batch(made, in_flask, measured=measured), called)
            return
        hot = heats_up(start.chemical)
        first = writer.volume(first_part(made - taken))
        ready = "water_first" if hot else "water_ready"
        yield writer.say(ready, first=first, solvent=self._solvent)
        yield writer.say(
            "add_slowly" if hot else "add_stirring",
            stock=writer.volume(measured.total),
            called=called,
            instruments=writer.instruments(measured),
        )
        yield self._made_up(made, in_flask=in_flask, only_then=hot)

    def _further(self, times: int) -> Iterator[str]:
        m = measures()
        take, make = self.writer.volume(m.take), self.writer.volume(m.make)
        yield from (
            self.writer.say("dilute_again", take=take, make=make) for _ in range(times)
        )

    def _measured(self, batch: Batch, called: str) -> str:
        assert batch.measured is not None
        return self.writer.say(
            "measure_to_mark" if batch.in_flask else "measure_to_line",
            stock=self.writer.volume(batch.measured.total),
            called=called,
            instruments=self.writer.instruments(batch.measured),
            volume=self.writer.volume(batch.volume),
            solvent=self._solvent,
            cylinder=self._cylinder(batch.volume),
        )

    def _cylinder(self, volume: Fraction) -> str:
        (portion,) = by_cylinder(volume).portions
        return self.writer.volume(portion.capacity)


def first_part(water: Fraction) -> Fraction:
    """Two thirds of the water, in steps that a beaker shows, in cm³."""
    step = next((s for least, s in _STEPS if water >= least), _FINEST)
    return max(step, rounded_to(water * _TWO_THIRDS, step))
