"""Sheets to HTML: typesetting, the templates' surroundings, the site.

A page is a function of a `Sheet`, a `Key` and a `PageContext`.  The templates
ask each gap for its filling and print it if there is one; which edition they
print is nothing they know.
"""
