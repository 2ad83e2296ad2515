"""The main question: will it pull, what gives out first, how far does it go, how sure is that. `answer.py` puts it together."""
