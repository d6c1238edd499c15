"""What a manual is: frozen dataclasses in which every piece knows its place."""
