"""Answers as JSON-ready data: stable names, every number with its unit."""
