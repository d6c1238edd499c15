"""Model and knowledge to everything that is computed, once."""
