"""The tables as objects: chemicals and their hazards, apparatus, controls, glassware."""
