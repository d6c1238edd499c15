"""The technician's answers: what to weigh, dilute, fill, set out and take back.

An `Order` says which classes come, `plan` works out what they need, and
`technician_sheet` sets it out by action. The rules of the trade stand in
``manualgen/data/preparing.yaml``.
"""
