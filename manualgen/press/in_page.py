"""What the press asks of the browser from within a document.

These run beside the document, by the browser's own door; the document's scripts
do not run at all.
"""

from typing import Final

SET: Final = """
html => {
  const next = new DOMParser().parseFromString(html, "text/html");
  const sheets = page => [...page.querySelectorAll("link[rel=stylesheet]")];
  const named = page => sheets(page).map(link => link.getAttribute("href")).join();
  if (named(next) !== named(document)) return false;
  const root = document.documentElement;
  for (const name of root.getAttributeNames()) root.removeAttribute(name);
  for (const {name, value} of next.documentElement.attributes)
    root.setAttribute(name, value);
  const rest = page => [...page.head.childNodes].filter(
    node => !sheets(page).includes(node));
  for (const node of rest(document)) node.remove();
  document.head.append(...rest(next));
  document.body.replaceWith(next.body);
  return true;
}
"""
"""Sets another document in the place of this one, if its style sheets are the same.

Sheets and faces are parsed already, which is half of what a document costs.
Gives whether it was done.
"""

IS_LOADING: Final = """
() => [...document.images].some(image => !image.complete)
"""
"""Whether a picture is still to come.

It is asked again and again: no event reaches a document whose scripts are off,
and `decode()` waits for a frame to be shown, which may be never.
"""

PREPARE: Final = """
async own => {
  for (const link of document.links)
    if (link.hash && link.href === own + link.hash) link.href = link.hash;
  const links = document.createElement("div");
  for (const place of document.querySelectorAll("[id]")) {
    const link = document.createElement("a");
    link.href = "#" + encodeURIComponent(place.id);
    links.append(link);
  }
  document.head.append(links);
  await Promise.allSettled([...document.fonts].map(face => face.load()));
  return [...document.images].map(image => image.src);
}
"""
"""Makes a document ready to be printed; gives the addresses of its pictures.

Its address is another than its file's, so links to its own places are told by
the place alone.  Chromium gives a destination to each id that a link of the
same file names, so every id gets a link, out of sight in the head.  A face that
only a margin box uses is not asked for by the document's own layout, and a
print does not wait for it: load every face that is declared.
"""

FIND_WIDE: Final = """
width => {
  const edge = width + 0.5;  // the print's own coordinates are rounded so far
  const right = element => {
    const box = element.getBoundingClientRect();
    const cuts = getComputedStyle(element).overflowX !== "visible";
    return Math.max(box.right, cuts ? 0 : box.left + element.scrollWidth);
  };
  const visit = element => {
    if (right(element) <= edge) return [];
    const cuts = getComputedStyle(element).overflowX !== "visible";
    const inner = cuts ? [] : [...element.children].flatMap(visit);
    return inner.length ? inner : [element];
  };
  const found = [...document.body.children].flatMap(visit);
  const all = document.documentElement;
  if (!found.length && all.scrollWidth > edge) found.push(all);
  return found.map(element => ({
    tag: element.localName,
    id: element.closest("[id]")?.id ?? "",
    line: element.closest("[data-line]")?.dataset.line ?? "",
    excess: right(element) - width,
  }));
}
"""
"""The innermost elements whose box, or whose words, reach past the right edge.

What an element cuts off at its own edge widens nothing.
"""
