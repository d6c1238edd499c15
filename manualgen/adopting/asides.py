"""What typed notes say beside the practical: to a colleague, or not settled yet."""

from __future__ import annotations

import re
from enum import Enum
from functools import cache

from manualgen.knowledge.tables import read_table


class Aside(Enum):
    """Whom a sentence is for, or why it cannot be placed."""

    TEACHER = "for_teacher"
    UNSETTLED = "unsettled"
    WARNS = "warns"
    FORM = "form_lines"


@cache
def _patterns(aside: Aside) -> re.Pattern[str]:
    texts = read_table("asides").texts(aside.value)
    return re.compile("|".join(f"(?:{text})" for text in texts), re.IGNORECASE)


def aside_of(text: str) -> Aside | None:
    """What a sentence says beside the practical; what is not settled comes first.

    >>> aside_of("NO - use electrolysis this year"), aside_of("Stir it.")
    (<Aside.UNSETTLED: 'unsettled'>, None)
    """
    row = (Aside.UNSETTLED, Aside.FORM, Aside.WARNS, Aside.TEACHER)
    return next((aside for aside in row if _patterns(aside).search(text)), None)
