"""What stands before an action: words that lead in, and the one who does it.

*Each pair then weighs it*, *get them to weigh it* and *could you weigh it* all are
*weigh it*.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from manualgen.adopting.vocabulary import alternatives, doing, one_of, patterns, table


def leads(text: str) -> Iterator[str]:
    """A sentence, and what is left of it as word after word that leads in is taken off."""
    yield text
    while found := one_of("fillers").match(text):
        rest = text[found.end() :].lstrip(" ,–-:")
        if not rest:
            break
        text = rest
        yield text


def led_in(text: str) -> str:
    """A sentence without the words that lead it in."""
    *_, bare = leads(text)
    return bare


def without_doer(text: str) -> str:
    """A sentence without the one who does it, where it begins with one.

    >>> without_doer("the helper just puts it away"), without_doer("get them to stir it")
    ('put it away', 'stir it')
    """
    if caused := patterns("doers", "causing").match(text):
        return without_doer(led_in(text[caused.end() :].lstrip()))
    found = _doer().match(text)
    if found is None:
        return text
    rest = led_in(text[found.end() :].lstrip())
    if found["one"] and not found["modal"]:
        rest = _base(rest)
    return _all_base(rest) if found["one"] else rest


@cache
def _doer() -> re.Pattern[str]:
    row = table().row("doers")
    many, one, people = (alternatives(row.texts(k)) for k in ("many", "one", "people"))
    modals = alternatives(row.texts("modals"))
    between = alternatives(row.texts("between"))
    person = rf"(?:{people})(?:\s+(?:of|in|on|at)\s+(?:you|them|the\s+\w+|each\s+\w+))?"
    some = rf"(?:the|your|our|my|these|those|both|all|two|all the|both the)\s+{person}s|{person}s"
    single = rf"(?:each|every|the|a|your|my|one|another|the other)\s+(?:other\s+)?{person}(?!s)"
    return re.compile(
        rf"(?:(?P<many>{some}|{many})|(?P<one>{single}|{one}))(?![\w-])"
        rf"(?:\s+(?:each|both|all)\b)?"
        rf"(?P<modal>(?:\s*(?:{modals})(?![\w'’]))+)?(?:\s+(?:{between})\b)*\s+",
        re.IGNORECASE,
    )


@cache
def base_of_one() -> dict[str, str]:
    """*Puts*, *mixes* and *dries*, and the verbs that they are of."""
    verbs = {v: v for v in doing() if " " not in v}
    forms = {f"{verb}{end}": verb for verb in verbs for end in ("s", "es")}
    return forms | {f"{verb[:-1]}ies": verb for verb in verbs if verb.endswith("y")}


def _base(text: str) -> str:
    does, _, rest = text.partition(" ")
    verb = base_of_one().get(does.casefold())
    return f"{verb} {rest}".rstrip() if verb else text


@cache
def _joined_forms() -> re.Pattern[str]:
    forms = alternatives(base_of_one())
    objects = alternatives(table().row("clauses").texts("objects"))
    return re.compile(
        rf"((?:,|\band|\bthen)\s+(?:then\s+|and\s+)?)(?:(?:another|the other|someone(?:\s+else)?)\s+)?({forms})(?=\s+(?:{objects})\b)",
        re.I,
    )


def _all_base(text: str) -> str:
    """*Stand it up and warms it*, all its verbs as those of many."""
    return _joined_forms().sub(lambda m: m[1] + base_of_one()[m[2].casefold()], text)
