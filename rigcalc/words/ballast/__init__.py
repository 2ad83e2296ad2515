"""The words of ballast: the plan, the slip test, and what stands around them."""
