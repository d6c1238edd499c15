"""The tags of a print, made plain and free of chance.

Chromium wraps each run of text in structure elements that say nothing, and numbers table cells by the browser's life so far. Here the
wrappers go, which leaves a third of the elements in the same reading order,
and cells are numbered through the document. List items get the `LBody` that
ISO 32000-1, 14.8.4.3.3, gives them, and a frame about a picture and its
caption leaves the name of Figure to the picture, which has the words.
"""

from collections.abc import Iterator, Mapping, Sequence, Set
from dataclasses import dataclass, field

from pikepdf import Array, Dictionary, Name, Object, Pdf, Stream, String

from manualgen.press.artefacts import Content
from manualgen.press.places import page_key

# Wrappers that say nothing to a reader of PDF 1.7; Strong and Em came with 2.0.
_WRAPPERS = frozenset(("/NonStruct", "/Strong", "/Em"))
_PLAIN_KEYS = frozenset(("/Type", "/S", "/P", "/K", "/Pg"))


@dataclass(frozen=True, slots=True)
class _Run:
    """A piece of marked content: its page, and its number there."""

    page: Object
    number: int


@dataclass(frozen=True, slots=True)
class _Annotation:
    """A reference to an annotation, such as a link's."""

    reference: Object


@dataclass(frozen=True, slots=True)
class _Node:
    """A structure element and, flattened, what is under it."""

    element: Object
    kids: tuple["_Kid", ...]

    @property
    def tag(self) -> str:
        return str(self.element.S)


_Kid = _Run | _Annotation | _Node


def tidy_tags(pdf: Pdf, name: str) -> None:
    """Flatten, complete and number the structure tree; `name` begins its IDs.

    What is no content becomes an artefact: all that is unmarked, marks that
    show no words and belong to no figure, and what is painted a second time,
    which is a table's head on each further page, and a figure that was moved to
    the next page and is painted beyond the foot of the one before as well.
    """
    contents = {page_key(p.obj): Content(p.Contents.read_bytes()) for p in pdf.pages}
    reader = _Reader({key: c.wordless_marks() for key, c in contents.items()})
    root = pdf.Root.get("/StructTreeRoot")
    if root is not None and "/K" in root:
        tables = _Tables(name)
        _write(_complete(reader.read(root.K), pdf), root, tables)
        tables.rename_headers()
        tables.write_parent_tree(root)
        tables.write_id_tree(root)
    for page in pdf.pages:
        key = page_key(page.obj)
        marked = contents[key].with_artefacts(reader.dropped[key])
        page.Contents = Stream(pdf, marked)


class _Reader:
    """Reads the tree, leaving out marks that are wordless, a page's at a time."""

    def __init__(self, wordless: Mapping[tuple[int, int], Set[int]]) -> None:
        self._wordless = wordless
        self._order = list(wordless).index
        self.dropped: dict[tuple[int, int], set[int]] = {k: set() for k in wordless}

    def read(self, element: Object) -> _Node:
        is_figure = element["/S"] == Name.Figure
        node = _Node(element, tuple(self._kids(element, is_figure)))
        pages = dict.fromkeys(page_key(run.page) for run in _runs_of(node))
        if len(pages) > 1 and (is_figure or _heads_a_column(element)):
            numbers = sorted(pages, key=self._order)
            return self._on_page(node, numbers[-1 if is_figure else 0])
        return node

    def _on_page(self, node: _Node, kept: tuple[int, int]) -> _Node:
        """The node with what stands on one page alone."""
        kids: list[_Kid] = []
        for kid in node.kids:
            if isinstance(kid, _Node):
                kids.append(self._on_page(kid, kept))
            elif isinstance(kid, _Run) and page_key(kid.page) != kept:
                self.dropped[page_key(kid.page)].add(kid.number)
            else:
                kids.append(kid)
        return _Node(node.element, tuple(kids))

    def _kids(self, element: Object, is_figure: bool) -> Iterator[_Kid]:
        for kid in _listed(element.get("/K")):
            if isinstance(kid, int):
                yield from self._run(_Run(element.Pg, kid), is_figure)
                continue
            kind = str(kid.get("/S") or kid.Type)
            if kind == "/MCR":
                page = kid.Pg if "/Pg" in kid else element.Pg
                yield from self._run(_Run(page, int(kid.MCID)), is_figure)
            elif kind == "/OBJR":
                yield _Annotation(kid)
            elif kind in _WRAPPERS and kid.keys() <= _PLAIN_KEYS:
                yield from self._kids(kid, is_figure)
            else:
                yield self.read(kid)

    def _run(self, run: _Run, is_figure: bool) -> Iterator[_Run]:
        if is_figure or run.number not in self._wordless[page_key(run.page)]:
            yield run
        else:
            self.dropped[page_key(run.page)].add(run.number)


def _runs_of(node: _Node) -> Iterator[_Run]:
    for kid in node.kids:
        if isinstance(kid, _Node):
            yield from _runs_of(kid)
        elif isinstance(kid, _Run):
            yield kid


def _heads_a_column(element: Object) -> bool:
    attributes = (a for a in _listed(element.get("/A")) if isinstance(a, Dictionary))
    return any(a.get("/Scope") == Name.Column for a in attributes)


def _listed(value: Object | int | None) -> Sequence[Object | int]:
    if value is None:
        return ()
    return tuple(value.as_list()) if isinstance(value, Array) else (value,)


def _complete(node: _Node, pdf: Pdf) -> _Node:
    """The node with bodies in its lists, and one Figure where there were two."""
    kids = tuple(
        _complete(kid, pdf) if isinstance(kid, _Node) else kid for kid in node.kids
    )
    if (
        node.tag == "/Figure"
        and "/Alt" not in node.element
        and "/Figure" in _tags(kids)
    ):
        node.element.S = Name.Div
    if node.tag == "/LI" and "/LBody" not in _tags(kids):
        kids = _in_body(kids, pdf)
    return _Node(node.element, kids)


def _tags(kids: Sequence[_Kid]) -> set[str]:
    return {kid.tag for kid in kids if isinstance(kid, _Node)}


def _is_label(kid: _Kid) -> bool:
    return isinstance(kid, _Node) and kid.tag == "/Lbl"


def _in_body(kids: Sequence[_Kid], pdf: Pdf) -> tuple[_Kid, ...]:
    """A list item's label, and the rest of it in a body."""
    labels = tuple(kid for kid in kids if _is_label(kid))
    rest = tuple(kid for kid in kids if not _is_label(kid))
    body = pdf.make_indirect(Dictionary(Type=Name.StructElem, S=Name.LBody))
    return (*labels, _Node(body, rest))


@dataclass(slots=True)
class _Tables:
    """The tree's tables: who owns each run and annotation, and the IDs."""

    name: str
    runs: dict[tuple[int, int], dict[int, Object]] = field(default_factory=dict)
    pages: list[Object] = field(default_factory=list)
    annotations: dict[int, Object] = field(default_factory=dict)
    cells: dict[str, Object] = field(default_factory=dict)
    renamed: dict[str, str] = field(default_factory=dict)
    headers: list[Object] = field(default_factory=list)

    def number(self, element: Object) -> None:
        """Give the element an ID by its place, if it has one, and note its heads."""
        if "/ID" in element:
            new = f"{self.name}/{len(self.cells) + 1:05d}"
            self.renamed[str(element.ID)] = new
            self.cells[new] = element
            element.ID = String(new)
        for attributes in _listed(element.get("/A")):
            if isinstance(attributes, Dictionary) and "/Headers" in attributes:
                self.headers.append(attributes.Headers)

    def own(self, run: _Run, element: Object) -> None:
        """Note that the element has this piece of marked content."""
        if page_key(run.page) not in self.runs:
            self.pages.append(run.page)
        self.runs.setdefault(page_key(run.page), {})[run.number] = element

    def rename_headers(self) -> None:
        """Let cells name their heads anew, now that all have a number."""
        for headers in self.headers:
            for place, old in enumerate(headers.as_list()):
                headers[place] = String(self.renamed[str(old)])

    def write_parent_tree(self, root: Object) -> None:
        """The way from marked content and annotations to their elements."""
        parents: dict[int, Object] = dict(self.annotations)
        for page in self.pages:
            owners = self.runs[page_key(page)]
            slots = [owners.get(n) for n in range(max(owners) + 1)]
            parents[int(page.StructParents)] = Array(slots)
        numbers = [entry for key in sorted(parents) for entry in (key, parents[key])]
        root.ParentTree = Dictionary(Nums=Array(numbers))
        root.ParentTreeNextKey = max(parents, default=-1) + 1

    def write_id_tree(self, root: Object) -> None:
        """The way from IDs to their elements."""
        if "/IDTree" in root:
            del root["/IDTree"]
        if self.cells:
            root.IDTree = name_tree(self.cells)


def name_tree(entries: dict[str, Object]) -> Dictionary:
    """A name tree of one node (ISO 32000-1, 7.9.6), its keys in order."""
    pairs = [(String(key), entries[key]) for key in sorted(entries)]
    return Dictionary(Names=Array([part for pair in pairs for part in pair]))


def _write(node: _Node, parent: Object, tables: _Tables) -> None:
    element = node.element
    element.P = parent
    tables.number(element)
    page = next((kid.page for kid in node.kids if isinstance(kid, _Run)), None)
    if page is not None:
        element.Pg = page
    elif "/Pg" in element:
        del element["/Pg"]
    element.K = Array([_entry(kid, element, tables) for kid in node.kids])


def _entry(kid: _Kid, element: Object, tables: _Tables) -> Object | int:
    match kid:
        case _Run(page, number):
            tables.own(kid, element)
            if page_key(page) == page_key(element.Pg):
                return number
            return Dictionary(Type=Name.MCR, Pg=page, MCID=number)
        case _Annotation(reference):
            tables.annotations[int(reference.Obj.StructParent)] = element
            return reference
        case _Node(inner):
            _write(kid, element, tables)
            return inner
