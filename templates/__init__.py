"""HTML and CSS of the manual: what a designer would change, and no decisions."""
