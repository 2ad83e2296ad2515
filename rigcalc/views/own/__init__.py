"""The page for a rig of one's own: three cards answered from the seat; the rest is assumed."""
