"""The registry: a check is a small generator of faults, and its name.

The docstring of a check states the rule as it holds when it is kept;
``manualgen explain`` prints it, with the example of that name from
``manualgen/data/examples/``.  A check knows nothing of severities, accepted
findings or output; the runner adds those.
"""

from __future__ import annotations

import inspect
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import TypeAlias

from manualgen.model.finding import Fault, Severity
from manualgen.working.worked import Worked, WorkedExperiment

Report: TypeAlias = Iterable[Fault]
ExperimentCheck: TypeAlias = Callable[[WorkedExperiment], Report]
ManualCheck: TypeAlias = Callable[[Worked], Report]


@dataclass(frozen=True, slots=True)
class Check:
    """A registered check."""

    name: str
    severity: Severity
    family: str
    """What it is about: one of `FAMILIES`."""
    rule: str
    """What holds of sound content, from the docstring."""
    of_experiment: ExperimentCheck | None = None
    of_manual: ManualCheck | None = None


FAMILIES = {
    "source": ("source",),
    "chemistry": ("chemistry", "substances"),
    "quantities": ("units", "unitless", "calculations", "precision"),
    "materials": ("materials",),
    "safety": ("safety",),
    "answers": ("answers",),
    "style": ("spelling",),
    "print": ("paper",),
}
"""Each family, in the order in which a reader meets them, and its modules."""

CHECKS: dict[str, Check] = {}
"""Every check by name, in the order of registration."""


def check(
    name: str, severity: Severity
) -> Callable[[ExperimentCheck], ExperimentCheck]:
    """Register a check of one experiment under its public name."""

    def register(function: ExperimentCheck) -> ExperimentCheck:
        _enter(name, severity, function, of_experiment=function)
        return function

    return register


def manual_check(name: str, severity: Severity) -> Callable[[ManualCheck], ManualCheck]:
    """Register a check of the manual as a whole under its public name."""

    def register(function: ManualCheck) -> ManualCheck:
        _enter(name, severity, function, of_manual=function)
        return function

    return register


def noted_check(name: str, severity: Severity, module: str, rule: str) -> None:
    """Register a check whose faults reading notes while it reads.

    ``module`` is the one it would stand in.  The runner reports every `Noted` fault under its name; a function of the
    same name may still be registered for what only shows later.
    """
    if name in CHECKS:
        raise ValueError(f"the check {name} is registered twice")
    CHECKS[name] = Check(name, severity, _family_of(module), rule)


def _family_of(module: str) -> str:
    return next(name for name, modules in FAMILIES.items() if module in modules)


def _enter(
    name: str,
    severity: Severity,
    function: ExperimentCheck | ManualCheck,
    *,
    of_experiment: ExperimentCheck | None = None,
    of_manual: ManualCheck | None = None,
) -> None:
    known = CHECKS.get(name)
    if known and (
        known.severity is not severity
        or (of_experiment and known.of_experiment)
        or (of_manual and known.of_manual)
    ):
        raise ValueError(f"the check {name} is registered twice")
    CHECKS[name] = Check(
        name,
        severity,
        known.family if known else _family_of(function.__module__.rpartition(".")[2]),
        known.rule if known else inspect.getdoc(function) or "",
        of_experiment or (known.of_experiment if known else None),
        of_manual or (known.of_manual if known else None),
    )
