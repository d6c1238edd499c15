"""Worked model to findings: a registry, and one file a family."""
