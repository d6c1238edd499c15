"""The manual on the author's own screen while it is being written.

`live` keeps the pages as they were last worked out, `watch` sees when a file
is saved, `server` hands pages to a browser on this computer and to nobody else.
"""
