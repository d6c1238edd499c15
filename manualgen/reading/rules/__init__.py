"""What the format adds to CommonMark: markdown-it-py rules, one file a rule.

Each rule says in its docstring what it reads. `parser` puts them in order.
"""
