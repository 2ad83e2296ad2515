"""No physics lives here: units, nomenclature, sources, tables, the equation edge, working and errors."""
