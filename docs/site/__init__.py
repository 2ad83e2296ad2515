"""The docs site: the pages that stand in `docs/`, README and the lessons, gathered into a tree and built by sphinx.

`uv run python -m docs.site OUT` builds it into the folder OUT. Nothing is fetched from elsewhere, when it is built or read.
"""
