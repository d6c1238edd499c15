"""What a technician has to know: what a class needs, and how it is made.

An `Order` says which classes come, and `plan` works out what they need and how
each solution is made.  The rules of the trade stand in
``manualgen/data/preparing.yaml``.
"""
