"""Tables as YAML, each row or table with its source; JSON Schemas; labels."""
