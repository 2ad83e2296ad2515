"""Sheets of problems as a page to print and as a notebook to return, the table of marks, and the part to practice with."""
