"""Answers in a terminal: sizing, ballast and the slip test."""
