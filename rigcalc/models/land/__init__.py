"""The land: boundaries of fields from a file, looked over strictly, on a plane in metres. Several questions stand on it.

`files.py` reads a file, `geojson.py` and `shape_file.py` each kind, `boundary.py` looks it over, `plane.py` turns degrees into
metres.
"""
