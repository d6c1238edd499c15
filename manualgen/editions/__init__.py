"""Worked model to printable sheets; the student's cannot hold an answer."""
