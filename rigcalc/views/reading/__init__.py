"""The page "What the field said": readings from the cab added, listed, weighed, and set beside what was said before them."""
