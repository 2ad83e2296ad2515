"""The sizing app: will it pull, what gives out first, how sure is that."""
