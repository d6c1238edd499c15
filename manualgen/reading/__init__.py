"""Text to model."""
