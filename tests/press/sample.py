"""A practical's sheet in HTML, as the press is given them, and a folder of many.

The page has what a real one has: margin boxes, a boxed warning, a table with
row and column heads, sub- and superscripts, a drawing, mathematics, ruled
lines, links within and across sheets, and pages of another name at the end.
"""

from importlib.metadata import files
from pathlib import Path

FACE = "STIXTwoMath-Regular.ttf"

CSS = """
@font-face { font-family: Sheet; src: url(sheet.ttf) }
@page {
  size: A4; margin: 20mm 18mm 22mm 25mm;
  @top-left { content: "Skerry Point Sixth Form College"; font: 9pt Sheet, serif }
  @top-right { content: "Sheet for trial"; font: 9pt Sheet, serif }
  @bottom-center { content: "1-" counter(sheet); font: 9pt Sheet, serif }
  counter-increment: sheet;
}
@page technical {
  margin: 20mm 12mm;
  @bottom-center { content: "1-T" counter(technical); font: 9pt Sheet, serif }
  counter-increment: technical;
}
html { counter-reset: sheet technical; font: 11pt/1.35 Sheet, serif }
body { margin: 0 }
sub, sup { font-size: 8pt; line-height: 0; position: relative; vertical-align: baseline }
sub { top: 2px } sup { top: -4px }
h2 { font-size: 13pt; break-after: avoid }
li, tr, figure, .box { break-inside: avoid }
.box { border: 2.5pt solid black; padding: 3mm; margin: 4mm 0 }
table { border-collapse: collapse; width: 100% }
th, td { border: .4pt solid black; padding: 1mm 2mm; text-align: left }
.rule { border-bottom: .4pt solid #777; height: 8mm }
.technical { page: technical; break-before: page }
"""

STEP = (
    "Rinse the burette with the acid, fill it above the zero mark and let it run"
    " down to {volume:.2f} cm<sup>3</sup>. Add three drops of indicator to the"
    " flask and swirl while the H<sub>3</sub>O<sup>+</sup> concentration falls."
)


def sheet(name: str, number: int, others: tuple[str, ...]) -> str:
    """The HTML of one practical; `others` are the sheets that it links to."""
    steps = "".join(
        f'<li id="step-{n}" data-line="{20 + n}">{STEP.format(volume=n / 20)}'
        f' See <a href="#question-{1 + n % 4}">question {1 + n % 4}</a>.</li>'
        for n in range(1, 15 + number % 5)
    )
    rows = "".join(
        f'<tr><th scope="row">Run {n}</th><td>{20 + n / 20:.2f}</td><td></td></tr>'
        for n in range(1, 5 + number % 3)
    )
    questions = "".join(
        f'<li id="question-{n}" data-line="{60 + n}">Why is the first reading of run'
        f" {n} not used? <span>({n} marks)</span>{'<div class=rule></div>' * 3}</li>"
        for n in range(1, 9)
    )
    links = "".join(f'<li><a href="{o}.html#step-2">{o}</a></li>' for o in others)
    return f"""<!doctype html>
<html lang="en-GB"><head><meta charset="utf-8"><title>Vinegar, trial {number}</title>
<link rel="stylesheet" href="sheet.css"></head><body><main>
<h1 id="top">Practical {number}: the acid in vinegar</h1>
<p>A sheet for the press's own trials, named {name}.</p>
<section class="box" id="box-1" aria-label="Safety box {number}.1"><h2>Wear eye
protection</h2><p>Sodium hydroxide, 0.1 mol/dm<sup>3</sup>: wash splashes off at
once. The employer's risk assessment decides.</p></section>
<h2 id="steps">What to do</h2><ol>{steps}</ol>
<figure id="figure-1"><svg role="img" aria-label="A line of 100 mm" width="100mm"
height="6mm" viewBox="0 0 100 6"><path d="M0 3H100" stroke="#000" stroke-width=".3"/>
</svg><figcaption>Figure {number}.1 One hundred millimetres</figcaption></figure>
<table id="table-1"><caption>Table {number}.1 Titres</caption><thead><tr>
<th scope="col">Run</th><th scope="col">Titre / cm<sup>3</sup></th>
<th scope="col">Mine</th></tr></thead><tbody>{rows}</tbody></table>
<p><span role="img" aria-label="n equals c times V"><math><mi>n</mi><mo>=</mo><mi>c</mi>
<mi>V</mi></math></span></p>
<h2 id="questions">Questions</h2><ol>{questions}</ol>
<h2 id="see-also">See also</h2><ul>{links}</ul>
<p><a href="{name}-help.html">Help</a> <a href="{others[0]}.html">The next</a>
<a href="sheet.css">No page</a></p>
<p><a href="https://www.example.org/data">An outside address</a></p>
<section class="technical" id="technical"><h2>For the technician</h2>
<p>Make 2 dm<sup>3</sup> for each class.</p></section>
</main></body></html>
"""


def write_sheets(folder: Path, count: int) -> tuple[Path, ...]:
    """Write `count` sheets that link to one another, and their style sheet."""
    names = tuple(f"sheet-{n:03d}" for n in range(1, count + 1))
    (folder / "sheet.css").write_text(CSS, encoding="utf-8")
    face = next(f for f in files("ziamath") or () if f.name == FACE)
    (folder / "sheet.ttf").write_bytes(face.read_binary())
    written = []
    for number, name in enumerate(names, start=1):
        others = (names[number % count], names[0])
        path = folder / f"{name}.html"
        path.write_text(sheet(name, number, others), encoding="utf-8")
        written.append(path)
    return tuple(written)
