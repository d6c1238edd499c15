"""Binds the pages of prints together with their tags and the names of places.

A page finds its tags through a number of its own (`StructParents`) in a table
of the file's, and so does a link: each print counts from 0, so the numbers are
counted on from print to print. IDs and names begin with their document's name
and need no change; only their tables are made again, one branch for a print.
"""

from dataclasses import dataclass, field

from pikepdf import Array, Dictionary, Name, Object, Pdf, String

from manualgen.press.links import link_annotations


@dataclass(slots=True)
class Binding:
    """A book in the making."""

    book: Pdf
    trees: list[Object] = field(default_factory=list)
    parents: list[Object | int] = field(default_factory=list)
    cells: list[Object] = field(default_factory=list)
    places: list[Object] = field(default_factory=list)
    next_key: int = 0

    def add(self, source: Pdf) -> int:
        """Bind a finished print in; gives the number of its first page, from 0."""
        first = len(self.book.pages)
        for page in source.pages:
            self.book.pages.append(page)
        if "/Names" in source.Root:
            self.places.append(self._copy(source, source.Root.Names.Dests))
        tags = source.Root.get("/StructTreeRoot")
        if tags is not None:
            self._count_on(first)
            self._add_tags(source, tags)
        return first

    def finish(self, language: str) -> None:
        """Give the book the tables of what was bound in."""
        root = self.book.Root
        if self.places:
            root.Names = Dictionary(Dests=_branches(self.places))
        if not self.trees:
            return
        top = Dictionary(Type=Name.StructElem, S=Name.Document, Lang=String(language))
        top = self.book.make_indirect(top)
        for tree in self.trees:
            tree.P, tree.S = top, Name.Part
        top.K = Array(self.trees)
        tags = Dictionary(Type=Name.StructTreeRoot, K=top)
        tags.ParentTree = Dictionary(Nums=Array(self.parents))
        tags.ParentTreeNextKey = self.next_key
        if self.cells:
            tags.IDTree = _branches(self.cells)
        root.StructTreeRoot = self.book.make_indirect(tags)
        top.P = root.StructTreeRoot
        root.MarkInfo = Dictionary(Marked=True)

    def _count_on(self, first: int) -> None:
        for page in self.book.pages[first:]:
            if "/StructParents" in page.obj:
                page.obj.StructParents += self.next_key
            for link in link_annotations(page):
                if "/StructParent" in link:
                    link.StructParent += self.next_key

    def _add_tags(self, source: Pdf, tags: Object) -> None:
        del tags.K["/P"]  # or the copy would take the print's whole tree along
        self.trees.append(self._copy(source, tags.K))
        numbers = self._copy(source, tags.ParentTree).Nums.as_list()
        for n in range(0, len(numbers), 2):
            self.parents += [int(numbers[n]) + self.next_key, numbers[n + 1]]
        if "/IDTree" in tags:
            self.cells.append(self._copy(source, tags.IDTree))
        self.next_key += int(tags.ParentTreeNextKey)

    def _copy(self, source: Pdf, what: Object) -> Object:
        return self.book.copy_foreign(source.make_indirect(what))


def _branches(nodes: list[Object]) -> Dictionary:
    """A name tree of the prints' own, each a leaf (ISO 32000-1, 7.9.6)."""
    for node in nodes:
        names = node.Names.as_list()
        node.Limits = Array([names[0], names[-2]])
    nodes.sort(key=lambda node: bytes(node.Limits[0]))
    return Dictionary(Kids=Array(nodes))
