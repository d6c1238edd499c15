"""Two more word-processor documents of our own, with what people type by hand.

One is a worksheet whose bullets and numbers are typed, one a carousel of two
practicals whose needs are told in a sentence.
"""

from __future__ import annotations

from docx import Document
from docx.document import Document as WordDocument


def juice() -> WordDocument:
    """A worksheet whose steps and labels are typed, with a table to fill in."""
    document = Document()
    document.add_paragraph("WORKSHEET 7: VITAMIN C IN JUICE").runs[0].bold = True
    document.add_paragraph("Name: ................    Date: ................")
    document.add_paragraph("Equipment list").runs[0].bold = True
    document.add_paragraph("• 50 ml burette and stand")
    document.add_paragraph("• 25 ml pipette with filler")
    document.add_paragraph("• 2 x 250 ml conical flask")
    document.add_paragraph("• white tile")
    document.add_paragraph("• funnel")
    document.add_paragraph("Solutions").runs[0].bold = True
    document.add_paragraph("• 0.005 mol dm-3 iodine solution (60 ml)")
    document.add_paragraph("• orange juice, strained (100 ml)")
    document.add_paragraph("• 1% starch solution (5 ml)")
    document.add_paragraph("Instructions").runs[0].bold = True
    document.add_paragraph(
        "1) Rinse the burette with a little of the iodine solution and then fill it."
    )
    document.add_paragraph("2) Pipette 25.0 ml of orange juice into a conical flask.")
    document.add_paragraph("3) Add 1 ml of the starch solution.")
    document.add_paragraph(
        "4) Run in the iodine solution, swirling all the time, until a blue-black colour stays."
    )
    document.add_paragraph("5) Read the burette and record the titre in the table.")
    document.add_paragraph("6) Repeat until you have two titres within 0.1 ml.")
    document.add_paragraph("Results").runs[0].bold = True
    table = document.add_table(3, 3)
    for row, texts in zip(
        table.rows,
        (("", "trial 1", "trial 2"), ("end / ml", "", ""), ("start / ml", "", "")),
        strict=True,
    ):
        for cell, text in zip(row.cells, texts, strict=True):
            cell.text = text
    document.add_paragraph("At the end the orange liquid turns a dirty blue-black.")
    document.add_paragraph("Think about it").runs[0].bold = True
    document.add_paragraph("a) Why is the juice strained? (1 mark)")
    document.add_paragraph("b) What does the starch do? (1 mark)")
    document.add_paragraph("Hazards and precautions").runs[0].bold = True
    document.add_paragraph("Iodine stains skin and clothes. Do not drink the juice.")
    document.add_paragraph("Photocopy on yellow paper.")
    return document


def plating() -> WordDocument:
    """Two practicals under headings, with running prose for what is needed."""
    document = Document()
    document.add_heading("Electrochemistry carousel", 0)
    document.add_paragraph("Allow 25 minutes for each.")
    _activity(
        document,
        "Activity 1: Nickel on a coin",
        "Each group needs a copper coin, a nickel strip, a 100 cm3 beaker, a 6 V "
        "battery, two leads with crocodile clips, and 75 cm3 of nickel sulfate "
        "solution (0.2 mol/dm3).",
        "Clean the coin with emery paper and rinse it with propanone.",
        "Connect the coin to the negative terminal and the nickel to the positive one.",
        "Pour the nickel sulfate solution into the beaker.",
        "Lower both into the solution without letting them touch.",
        "Switch on for 10 minutes, then lift out the coin, rinse it and dry it.",
    )
    document.add_paragraph(
        "A grey, shiny layer covers the coin. The solution stays green."
    )
    document.add_heading("Theory", 2)
    document.add_paragraph("Nickel ions are reduced at the cathode: Ni2+ + 2e- → Ni.")
    _activity(
        document,
        "Activity 2: A lemon cell",
        "Each group needs half a lemon, a zinc strip, a copper strip, a "
        "voltmeter and two leads.",
        "Push the zinc and the copper into the lemon about 3 cm apart.",
        "Connect the strips to the voltmeter and read it.",
        "Push the strips closer together and read the voltmeter once more.",
        "Change the zinc for a second copper strip.",
    )
    document.add_paragraph(
        "The voltmeter shows about 0.9 V. It hardly changes when the strips are "
        "closer. With two copper strips the reading falls to zero."
    )
    document.add_heading("Theory", 2)
    document.add_paragraph("The voltage depends on the two metals.")
    document.add_heading("Clearing up", 2)
    document.add_paragraph("Lemons go in the bin: nobody eats them.")
    return document


def _activity(document: WordDocument, title: str, needs: str, *steps: str) -> None:
    """A practical up to the heading of what happens."""
    document.add_heading(title, 1)
    document.add_heading("Requirements", 2)
    document.add_paragraph(needs)
    document.add_heading("Steps", 2)
    for step in steps:
        document.add_paragraph(step, style="List Number")
    document.add_heading("What happens", 2)


def bottles() -> WordDocument:
    """A lesson's time and groups in a line, and salts that letters alone name."""
    document = Document()
    document.add_heading("Experiment 4: Bottles that lost their labels", 0)
    document.add_paragraph("Time: one long lesson (90 min). Work in groups of three.")
    document.add_heading("What you need", 1)
    for need in (
        "barium nitrate solution 0.1M",
        "dilute hydrochloric acid, 0.5 mol/dm3",
        "four white salts P, Q, R and S (sodium sulfate, sodium carbonate, "
        "potassium chloride, magnesium sulfate), two spatulas of each",
        "8 test tubes and a rack",
        "dropping pipettes",
    ):
        document.add_paragraph(need, style="List Bullet")
    document.add_heading("Instructions", 1)
    for step in (
        "Dissolve a little of P in 5 ml of deionised water in a test tube.",
        "Add ten drops of hydrochloric acid. Note whether gas comes off.",
        "Add ten drops of barium nitrate solution and note the colour of the solid.",
        "Repeat with Q, R and S.",
    ):
        document.add_paragraph(step, style="List Number")
    document.add_paragraph("BEWARE! Barium nitrate is harmful. Wear goggles.")
    document.add_heading("Clearing away", 1)
    document.add_paragraph("Barium solids go in the barium waste.")
    return document
