"""Print the experiments of all editions, the first of each size leading.

Whether an experiment is better set closer is tried with one edition, the
leading one; the others follow it, and are printed once.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import Future
from dataclasses import dataclass, field

from manualgen.build.closer import Trial, order_closer, set_closer
from manualgen.build.prints import Printing, order_experiment
from manualgen.build.rendering import Making, Render
from manualgen.press.jobs import Print
from manualgen.press.press import Press


@dataclass(frozen=True, slots=True)
class _Run:
    """The prints of one edition, in order."""

    making: Making
    orders: dict[int, Future[Print]] = field(default_factory=dict)

    def order(self, press: Press, index: int) -> None:
        edition, folder = self.making
        entry = edition.entries[index]
        self.orders[index] = order_experiment(press, folder, edition, entry)

    def printing(self) -> Printing:
        edition, folder = self.making
        return Printing(
            edition, folder, tuple(self.orders[n] for n in sorted(self.orders))
        )


_Size = Sequence[_Run]
"""The editions of one size; the first leads."""


def print_experiments(
    press: Press,
    making: Sequence[Making],
    rendered: Iterable[int],
    render: Render,
    printed: Callable[[int, int], None],
) -> list[Printing]:
    """Print every experiment as soon as it is rendered, and wait for all.

    ``render`` gives the pages that are set closer; ``printed`` is called after
    each print with how many are done, of how many.
    """
    runs = [_Run(each) for each in making]
    sizes = [
        [run for run in runs if run.making[0].large is large] for large in (False, True)
    ]
    sizes = [size for size in sizes if size]
    for index in rendered:
        for size in sizes:
            size[0].order(press, index)
    of = sum(len(size) * len(size[0].orders) for size in sizes)
    for done, order in enumerate(_all(press, sizes, render), start=1):
        order.result()
        printed(done, of)
    return [run.printing() for run in runs]


def _all(
    press: Press, sizes: Sequence[_Size], render: Render
) -> Iterator[Future[Print]]:
    """Every print, the leading ones first; what follows is ordered meanwhile."""
    trials: list[tuple[_Size, int, Trial]] = []
    for size in sizes:
        for index, order in size[0].orders.items():
            yield order
            making = size[0].making
            trial = order_closer(press, making, index, order.result(), render)
            if trial:
                trials.append((size, index, trial))
            else:
                _follow(press, size[1:], index)
    for size, index, trial in trials:
        if trial.settle():
            size[0].orders[index] = trial.order
            for run in size[1:]:
                set_closer(run.making, index, render)
        _follow(press, size[1:], index)
    for size in sizes:
        for run in size[1:]:
            yield from run.orders.values()


def _follow(press: Press, runs: Sequence[_Run], index: int) -> None:
    for run in runs:
        run.order(press, index)
