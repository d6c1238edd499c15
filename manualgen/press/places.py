"""On which page of a finished print each id stands, and where on it."""

from sys import intern

from pikepdf import Object, Pdf

from manualgen.press.jobs import Places


def places_of(pdf: Pdf) -> Places:
    """The places of an open print that is finished."""
    numbers = page_numbers(pdf)
    targets = {intern(name.partition("/")[2]): t for name, t in named_targets(pdf)}
    by_id = {name: numbers[page_key(target[0])] for name, target in targets.items()}
    depths = {name: _depth(target) for name, target in targets.items()}
    return Places(len(pdf.pages), by_id, depths)


def _depth(target: Object) -> float:
    """A place's depth on its page, from `[page /XYZ left top zoom]`."""
    height = float(target[0].MediaBox[3])
    return 1 - float(target[3]) / height


def named_targets(pdf: Pdf) -> tuple[tuple[str, Object], ...]:
    """The names of a finished print's places, with what they stand for."""
    if "/Names" not in pdf.Root:
        return ()
    names = pdf.Root.Names.Dests.Names.as_list()
    return tuple((str(names[n]), names[n + 1]) for n in range(0, len(names), 2))


def page_numbers(pdf: Pdf) -> dict[tuple[int, int], int]:
    """Each page's number, counted from 0, by its key."""
    return {page_key(page.obj): n for n, page in enumerate(pdf.pages)}


def page_key(page: Object) -> tuple[int, int]:
    """A page's object and generation number, by which it is known in its file."""
    number, generation = page.objgen
    return number, generation
