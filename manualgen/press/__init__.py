"""HTML to PDF: the browser, the book, the cache. Knows files, not chemistry."""
