"""Squared paper, plots, apparatus and pictograms: pure functions to SVG."""
