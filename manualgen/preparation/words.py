"""Amounts and names as the technician reads them.

A volume is in cm³, from 1 dm³ on in dm³ where that is the shorter; a mass shows
the places of the balance.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from decimal import Decimal
from fractions import Fraction

from manualgen.editions.catalogue import Numbered
from manualgen.editions.wording import Wording
from manualgen.knowledge import Classification
from manualgen.preparation.rules import measures
from manualgen.preparation.shelf import Start
from manualgen.preparation.sizes import Measured, Portion, rounded_to, rounded_up_to
from manualgen.preparation.translated import in_language
from manualgen.quantities import Quantity, parse_unit, printed
from manualgen.quantities.figures import rounded_to_place
from manualgen.quantities.style import printed_number
from manualgen.working.listed import Identity

_LITRE = 1000
_SHORT = 50
"""From 1 dm³ on, multiples of this many cm³ are printed in dm³."""


@dataclass(frozen=True, slots=True)
class Writer:
    """The sheet's words in a language, and amounts in the house style."""

    wording: Wording
    numbers: Mapping[str, Numbered] = field(default_factory=dict)
    """Every experiment's numbers, by id, for what its text refers to."""

    def say(self, name: str, /, **put_in: object) -> str:
        """A phrase by its name, with what belongs in its braces."""
        phrase = self.wording.say[name]
        return phrase.format(**put_in) if put_in else phrase

    def rule(self, text: str) -> str:
        """A sentence of the rules, in the manual's language where they have it."""
        return in_language(text, self.wording.language)

    def rules(self, texts: tuple[str, ...]) -> tuple[str, ...]:
        """Several of them."""
        return tuple(self.rule(text) for text in texts)

    def groups(self, number: int) -> str:
        """So many groups."""
        if number == 1:
            return self.say("one_group")
        return self.say("so_many_groups", number=number)

    def number(self, value: Decimal) -> str:
        """A bare number in the house style."""
        return printed_number(value, self.wording.house)

    def percent(self, fraction: Fraction) -> str:
        """A fraction of 1 in per cent."""
        return self._printed(fraction * 100, "%")

    def volume(self, cm3: Fraction) -> str:
        """A volume that is read as it stands."""
        if cm3 >= _LITRE and cm3 % _SHORT == 0:
            return self._printed(cm3 / _LITRE, "dm3")
        return self._printed(cm3, "cm3")

    def about(self, cm3: Fraction) -> str:
        """A volume that need not be exact, in whole cm³, rounded up."""
        return self.volume(rounded_up_to(cm3, Fraction(1)))

    def mass(self, grams: Fraction, reads: Fraction | None = None) -> str:
        """A mass to the last place of the balance."""
        step = reads or measures().reads
        exact = Quantity(in_steps(grams, step), parse_unit("g"))
        return printed(exact, self.wording.house)

    def weight(self, grams: Fraction) -> str:
        """A mass that need not be exact, to a tenth of a gram, rounded up."""
        if grams < 1:
            return self._printed(grams, "g")
        return self._printed(rounded_up_to(grams, Fraction(1, 10)), "g")

    def quantity(self, quantity: Quantity) -> str:
        """A quantity as the author wrote it, in the house style."""
        return printed(quantity, self.wording.house)

    def strength(self, strength: Quantity | str | None) -> str:
        """A strength in the house style, a word as it is, or nothing."""
        return self.wording.strength(strength)

    def about_strength(self, strength: Quantity) -> str:
        """A strength that making it does not fix: *about 0.1 mol dm⁻³*."""
        plain = replace(strength, value=_without_noughts(strength.value))
        return self.say("about", strength=self.quantity(plain))

    def solution(self, identity: Identity) -> str:
        """A solution by its name and strength."""
        strength = self.strength(identity.strength)
        if not strength or identity.name.startswith(strength):
            return identity.name
        return f"{identity.name}, {strength}"

    def start(self, start: Start) -> str:
        """What is taken from the shelf, with what the store says of it."""
        return ", ".join((self.rule(start.called), *self.details(start)))

    def details(self, start: Start) -> tuple[str, ...]:
        """What the store says of it, or what suppliers usually do."""
        return (*start.details, *map(self.quantity, start.measured))

    def instruments(self, measured: Measured) -> str:
        """With what a volume is measured."""
        first, *rest = [self._instrument(portion) for portion in measured.portions]
        for portion, words in zip(measured.portions[1:], rest, strict=True):
            volume = self.volume(portion.volume * portion.times)
            first = self.say("and_the_rest", first=first, rest=volume, second=words)
        return first

    def statements(self, found: Classification | None) -> tuple[str, ...]:
        """The texts of the hazard statements, the supplemental ones last."""
        texts = self.wording.hazard_statements()
        return tuple(text for _, text in found.worded(texts)) if found else ()

    def signal_word(self, found: Classification | None) -> str:
        """The signal word in the manual's language, or nothing."""
        word = found.signal_word if found else None
        return self.wording.say[word] if word else ""

    def advice(self, found: Classification | None) -> tuple[str, ...]:
        """What is said where there are no hazard statements, and of a strong pH."""
        if found is None:
            return (self.say("see_supplier"),)
        if found.advice:
            kind = "beside" if found.is_classified else "advice"
            return (self.say(f"{found.advice}_{kind}"),)
        if found.is_classified:
            return ()
        is_solution = found.percent_ww is not None
        return (self.say("at_this_strength" if is_solution else "not_classified"),)

    def _instrument(self, portion: Portion) -> str:
        name = "with_" + portion.instrument.rpartition(" ")[2]
        words = self.say(name, capacity=self.volume(portion.capacity))
        if portion.times == 1:
            return words
        return self.say("so_many_times", instrument=words, number=portion.times)

    def _printed(self, value: Fraction, unit: str) -> str:
        quantity = Quantity(decimal_of(value), parse_unit(unit))
        return printed(quantity, self.wording.house)


def in_steps(value: Fraction, step: Fraction) -> Decimal:
    """A value to a step of 0.01 or 0.001, its noughts kept."""
    places = len(str(step.denominator)) - 1
    return rounded_to_place(rounded_to(value, step), -places)


def decimal_of(value: Fraction) -> Decimal:
    """A value to a thousandth, without noughts that say nothing."""
    return _without_noughts(rounded_to_place(value, -3))


def _without_noughts(value: Decimal) -> Decimal:
    return Decimal(format(value.normalize(), "f"))
