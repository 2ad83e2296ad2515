"""The commands: one file a question, what they share in `common.py`, the way in and out in `main.py`."""
