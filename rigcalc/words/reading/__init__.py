"""The words of readings from the field: the list, what they tell, what to read next, and whether we said it right."""
