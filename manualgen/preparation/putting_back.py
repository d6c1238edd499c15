"""Put back: what comes back from the classes, and where it goes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from manualgen.editions.technician import Action, ActionRow
from manualgen.knowledge import Chemical, disposal_route, route_advice
from manualgen.preparation.action import action
from manualgen.preparation.authors import disposal_of
from manualgen.preparation.needs import Need, is_at_hand
from manualgen.preparation.plan import Plan
from manualgen.preparation.words import Writer

_COLLECT = "collect: "


def put_back(plan: Plan, writer: Writer) -> Action:
    """What comes back by its route, then what is left, then the apparatus."""
    said = (
        ActionRow(writer.say("manual_says", title=each.title), how=each.lines)
        for each in disposal_of(plan, writer)
    )
    rows = [*said, *_by_route(plan, writer), *_left(plan, writer)]
    how = writer.say("glass_how")
    rows.append(ActionRow(writer.say("glass"), how=(how,)))
    return action("put_back", rows, writer)


def waste_bottles(plan: Plan, sitting: int) -> tuple[str, ...]:
    """The words on the waste bottles that a class needs."""
    found = (
        disposal_route(chemical) or ""
        for n, _, chemical, _ in _returned(plan)
        if n == sitting
    )
    words = (r.removeprefix(_COLLECT) for r in found if r.startswith(_COLLECT))
    return tuple(dict.fromkeys(word.split(",")[0] for word in words))


def _by_route(plan: Plan, writer: Writer) -> Iterator[ActionRow]:
    routes: dict[str, dict[str, None]] = {}
    for _, name, chemical, made in _returned(plan):
        route = disposal_route(chemical) or ""
        said = writer.say("made_here_too", name=name) if made else name
        routes.setdefault(route, {})[said] = None
    for route, names in sorted(routes.items(), key=lambda item: _weight(item[0])):
        yield ActionRow("; ".join(names), how=tuple(_route_words(route, writer)))


def _weight(route: str) -> tuple[int, str]:
    """Collected things first, then what is neutralised; the sink comes last."""
    order = (_COLLECT, "neutralise", "vent", "return", "bin", "sink")
    kind = next((n for n, start in enumerate(order) if route.startswith(start)), -1)
    return kind, route


def _route_words(route: str, writer: Writer) -> Iterator[str]:
    if not route:
        yield writer.say("no_route")
        return
    if route.startswith(_COLLECT):
        words = route.removeprefix(_COLLECT).split(",")[0]
        yield writer.say("into_waste_bottle", words=writer.rule(words))
    advice = route_advice(route)
    if advice:
        yield writer.rule(advice)
    elif not route.startswith(_COLLECT):
        yield writer.rule(route)


def _returned(plan: Plan) -> Iterator[tuple[int, str, Chemical, bool]]:
    """Class, name and chemical of all that comes back; at last what was made."""
    for need in _needs(plan):
        chemical = need.identity.chemical
        if chemical and not is_at_hand(chemical):
            yield need.sitting, need.identity.name, chemical, False
    listed = {
        n.identity.chemical.substance for n in _needs(plan) if n.identity.chemical
    }
    for n, sitting in enumerate(plan.order.sittings):
        for made in sitting.work.made:
            chemical = made.chemical
            is_here = chemical is None or chemical.substance in listed
            if (
                chemical
                and not is_here
                and not is_at_hand(chemical)
                and not made.is_gas
            ):
                yield n, chemical.name, chemical, True


def _needs(plan: Plan) -> Iterator[Need]:
    everything: tuple[Iterable[Need], ...] = (
        *(s.needs for s in plan.solutions),
        *(s.needs for s in plan.supplied),
    )
    for needs in everything:
        yield from needs


def _left(plan: Plan, writer: Writer) -> Iterator[ActionRow]:
    """Solutions made for the day alone are not kept; the others go to the shelf."""
    made = [s for s in plan.solutions if s.making is not None]
    fresh = [s.identity.name for s in made if s.keeping.on_the_day]
    kept = [s.identity.name for s in made if not s.keeping.on_the_day]
    if fresh:
        names = "; ".join(dict.fromkeys(fresh))
        what = writer.say("stock_left", names=names)
        yield ActionRow(what, how=(writer.say("fresh_left_how"),))
    if kept:
        names = "; ".join(dict.fromkeys(kept))
        what = writer.say("stock_left", names=names)
        yield ActionRow(what, how=(writer.say("stock_left_how"),))
