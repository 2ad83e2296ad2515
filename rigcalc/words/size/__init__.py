"""The words of the main question."""
