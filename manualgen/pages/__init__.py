"""Sheets to HTML."""
