"""Word-processor documents of our own, as departments have them.

They are made here and not kept as files, so that their words can be read and
reviewed: a document with styles, one whose headings are bold paragraphs, one
with two practicals, and one that is plain paragraphs with raised figures.
"""

from __future__ import annotations

import base64
import io
from collections.abc import Callable, Iterable
from pathlib import Path

from docx import Document
from docx.document import Document as WordDocument

from tests.adopting.worksheets import bottles, juice, plating

PICTURE = base64.b64decode(
    "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg=="
)
"""One point of colour, as PNG."""


def limescale_remover() -> WordDocument:
    """A document with the word processor's own headings and lists."""
    document = Document()
    document.add_heading("How strong is a limescale remover?", 0)
    document.add_heading("Aim", 1)
    document.add_paragraph(
        "To find how much citric acid there is in a limescale remover."
    )
    document.add_heading("Introduction", 1)
    document.add_paragraph(
        "Limescale removers hold citric acid. Sodium hydroxide neutralises it, "
        "three to one."
    )
    document.add_heading("You will need", 1)
    _listed(
        document,
        "List Bullet",
        "limescale remover, 10 cm3",
        "sodium hydroxide solution, 0.100 mol/dm3, 100 cm3",
        "phenolphthalein solution",
        "burette, 50 cm3",
        "pipette, 25 cm3",
        "pipette filler",
        "volumetric flask, 250 cm3",
        "2 conical flasks, 250 cm3",
        "funnel",
    )
    document.add_heading("Method", 1)
    _listed(
        document,
        "List Number",
        "Put 10 cm3 of the limescale remover in the volumetric flask.",
        "Make it up to the mark with deionised water and turn the flask over ten times.",
        "Fill the burette with the sodium hydroxide solution through the funnel.",
        "Take the funnel out.",
        "Pipette 25 cm3 of the diluted limescale remover into a conical flask.",
        "Add three drops of phenolphthalein solution.",
        "Titrate until the solution just turns pink.",
        "Repeat until two titres agree.",
    )
    document.add_picture(io.BytesIO(PICTURE))
    document.add_heading("Results", 1)
    _table(
        document,
        ("", "rough", "1", "2"),
        ("final / cm3", "", "", ""),
        ("initial / cm3", "", "", ""),
    )
    document.add_heading("Questions", 1)
    _listed(
        document,
        "List Number 2",
        "Why is the remover diluted first? [1]",
        "Which acid is in lemon juice? [1]",
    )
    document.add_heading("Answers", 1)
    _listed(
        document,
        "List Number 3",
        "The burette would have to be filled several times.",
        "Citric acid.",
    )
    document.add_heading("Health and safety", 1)
    document.add_paragraph("Wear goggles. Fill the burette below eye level.")
    document.add_heading("Booking", 1)
    document.add_paragraph("Room 14 has the good burettes.")
    return document


def freezing_mixture() -> WordDocument:
    """Bold paragraphs for headings, and the needs in a table of two columns."""
    document = Document()
    _bold(document, "Ice, salt and the freezing point")
    _bold(document, "What you need")
    _table(
        document,
        ("Apparatus", "Chemicals"),
        ("250 ml beaker", "crushed ice, 100 g"),
        ("thermometer", "sodium chloride, 30 g"),
        ("glass rod", ""),
        ("balance", ""),
        ("boiling tube", ""),
    )
    _bold(document, "What to do")
    for line in (
        "Put 100 g of crushed ice in the beaker.",
        "Stir it with the glass rod and write down the temperature.",
        "Now add 10 g of salt and stir again.",
        "Write down the temperature after one minute.",
        "Add the rest of the salt in two portions of 10 g.",
        "Stand a boiling tube with 5 ml of water in the mixture.",
    ):
        document.add_paragraph(line)
    _bold(document, "What you see")
    document.add_paragraph("The ice melts although it gets colder.")
    document.add_paragraph("The thermometer falls to about -15 °C.")
    document.add_paragraph("The water in the boiling tube freezes.")
    _bold(document, "What it means")
    document.add_paragraph(
        "Salt lowers the freezing point of water. The ice takes the heat that it "
        "needs to melt from the mixture."
    )
    _bold(document, "Clearing away")
    document.add_paragraph("Pour everything down the sink.")
    document.add_paragraph("This sheet replaces the blue one of last year.")
    return document


def leaves() -> WordDocument:
    """Two practicals one after the other in one document."""
    document = Document()
    document.add_heading("The colours of a leaf", 1)
    document.add_heading("Equipment", 2)
    _listed(
        document,
        "List Bullet",
        "pestle and mortar",
        "chromatography paper",
        "boiling tube",
        "capillary tube",
        "pencil",
        "spinach leaves",
        "propanone, 5 cm3",
        "sand",
    )
    document.add_heading("Procedure", 2)
    _listed(
        document,
        "List Number",
        "Tear up three spinach leaves and grind them with a pinch of sand and 5 cm3 of propanone.",
        "Draw a pencil line 2 cm from the end of the chromatography paper.",
        "Use the capillary tube to put a spot of the green liquid on the line.",
        "Let the spot dry, and then put on another in the same place.",
        "Hang the paper in the boiling tube with its end in 1 cm of propanone.",
        "Take it out when the propanone is near the top.",
    )
    document.add_heading("Observations", 2)
    document.add_paragraph(
        "A yellow band runs near the front. Two green bands stay lower down."
    )
    document.add_heading("Explanation", 2)
    document.add_paragraph(
        "The yellow pigment is carotene, which dissolves best in propanone."
    )
    document.add_heading("Hazards", 2)
    document.add_paragraph("Propanone is highly flammable: no flames in the room.")
    document.add_heading("Iron in tea", 1)
    document.add_heading("Equipment", 2)
    _listed(
        document,
        "List Bullet",
        "crucible",
        "Bunsen burner",
        "pipeclay triangle",
        "tripod",
        "tongs",
        "test tube",
        "filter funnel",
        "filter paper",
        "tea leaves, 2 g",
        "hydrochloric acid, 2 mol/dm3, 10 cm3",
        "potassium thiocyanate solution, 0.1 mol/dm3",
    )
    document.add_heading("Procedure", 2)
    _listed(
        document,
        "List Number",
        "Heat 2 g of tea leaves in the crucible until only grey ash is left.",
        "Let the crucible cool.",
        "Add 10 cm3 of hydrochloric acid to the ash and stir.",
        "Filter the liquid into a test tube.",
        "Add five drops of potassium thiocyanate solution.",
    )
    document.add_heading("Observations", 2)
    document.add_paragraph("The solution turns red.")
    document.add_heading("Explanation", 2)
    document.add_paragraph("The red colour shows that there are iron(III) ions in tea.")
    document.add_heading("Hazards", 2)
    document.add_paragraph("The crucible stays hot for a long time.")
    return document


def cold_pack() -> WordDocument:
    """Plain paragraphs in the passive voice, with raised and lowered figures."""
    document = Document()
    document.add_paragraph("A cold pack from the store cupboard", style="Title")
    needs = document.add_paragraph()
    needs.add_run("Apparatus: ").bold = True
    needs.add_run("100 cm")
    needs.add_run("3").font.superscript = True
    needs.add_run(" beaker, thermometer, balance, stirring rod, measuring cylinder")
    chemicals = document.add_paragraph()
    chemicals.add_run("Chemicals: ").bold = True
    chemicals.add_run("ammonium chloride, NH")
    chemicals.add_run("4").font.subscript = True
    chemicals.add_run("Cl, 10 g; deionised water, 50 cm")
    chemicals.add_run("3").font.superscript = True
    method = document.add_paragraph()
    method.add_run("Method: ").bold = True
    method.add_run("50 cm")
    method.add_run("3").font.superscript = True
    method.add_run(
        " of deionised water is measured into the beaker. The temperature of the "
        "water is taken. 10 g of ammonium chloride is weighed out and tipped into "
        "the water. The mixture is stirred until all the solid has dissolved. The "
        "lowest temperature is recorded."
    )
    seen = document.add_paragraph()
    seen.add_run("Observation: ").bold = True
    seen.add_run("The beaker feels cold. The temperature falls by about 12 °C.")
    meaning = document.add_paragraph()
    meaning.add_run("Conclusion: ").bold = True
    meaning.add_run("Ammonium chloride takes in heat when it dissolves. NH")
    meaning.add_run("4").font.subscript = True
    meaning.add_run("+").font.superscript = True
    meaning.add_run(" and Cl")
    meaning.add_run("-").font.superscript = True
    meaning.add_run(" ions are set free.")
    document.add_paragraph("Disposal: The solution is poured down the sink.")
    document.add_paragraph("The nurse may ask to borrow the beaker.")
    return document


DOCUMENTS: dict[str, Callable[[], WordDocument]] = {
    "limescale-remover": limescale_remover,
    "freezing-mixture": freezing_mixture,
    "leaves": leaves,
    "cold-pack": cold_pack,
    "juice": juice,
    "plating": plating,
    "bottles": bottles,
}


def write_document(name: str, folder: Path) -> Path:
    """One of the documents as a file in a folder."""
    path = folder / f"{name}.docx"
    DOCUMENTS[name]().save(str(path))
    return path


def _bold(document: WordDocument, words: str) -> None:
    document.add_paragraph().add_run(words).bold = True


def _listed(document: WordDocument, style: str, *lines: str) -> None:
    for line in lines:
        document.add_paragraph(line, style=style)


def _table(document: WordDocument, *rows: Iterable[str]) -> None:
    kept = [tuple(row) for row in rows]
    table = document.add_table(len(kept), len(kept[0]))
    for at, row in enumerate(kept):
        for cell, words in zip(table.rows[at].cells, row, strict=True):
            cell.text = words
