"""Findings as text, JSON and SARIF."""
