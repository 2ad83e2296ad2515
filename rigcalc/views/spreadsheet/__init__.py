"""Answers as tables for other programs: CSV and XLSX, units in the heads, texts that no program takes for formulas."""
