"""What the figures of an answer are called, where they stand in a table or a picture."""

QUANTITY_TITLES = {
    "draft": "Draft of the tool",
    "drawbar_pull": "Pull at the drawbar",
    "net_pull": "Pull of the tractor, slope included",
    "peak_pull": "Most pull that grip can give",
    "slip": "Slip",
    "tractive_efficiency": "Tractive efficiency",
    "engine_power": "Power from the engine",
    "engine_share": "Share of rated power",
    "pto_power": "The same at the power take-off",
    "axle_power": "Power at the axles",
    "drawbar_power": "Power at the drawbar",
    "front_load": "Front axle load",
    "rear_load": "Rear axle load",
    "fuel_rate": "Fuel",
    "fuel_per_area": "Fuel for the area",
    "def_rate": "Exhaust fluid",
    "field_capacity": "Area worked",
    "width": "Working width",
    "specific_draft": "Draft for each area of cut soil",
}
FLOW_TITLES = {
    "engine": "engine",
    "engine_losses": "fan, pumps and power take-off train",
    "axle_losses": "from power take-off to axles",
    "slip": "slip",
    "rolling": "rolling of the tractor",
    "implement": "rolling of the implement, and grade",
    "soil": "work on the soil",
}
