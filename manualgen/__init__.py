"""Checks chemistry practicals and prints the manual that a department teaches from."""
