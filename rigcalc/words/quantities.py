"""What the figures of an answer are called, where they stand in a table or a picture."""

OUT_OF_REACH = "out of reach"  # a figure that isn't, because nothing is pulled
QUANTITY_TITLES = {
    "draft": "Draft",
    "drawbar_pull": "Drawbar pull",
    "net_pull": "Pull of the tractor, slope included",
    "peak_pull": "Most pull that grip can give",
    "slip": "Slip",
    "tractive_efficiency": "Tractive efficiency",
    "engine_power": "Engine power",
    "engine_share": "Engine load",
    "pto_power": "The same at the PTO",
    "axle_power": "Power at the axles",
    "drawbar_power": "Power at the drawbar",
    "front_load": "Front axle load",
    "rear_load": "Rear axle load",
    "fuel_rate": "Fuel rate",
    "fuel_per_area": "Fuel use, turns included",
    "def_rate": "Exhaust fluid",
    "field_capacity": "Area worked",
    "width": "Working width",
    "specific_draft": "Draft over the soil cut through",
}
FLOW_TITLES = {
    "engine": "engine",
    "engine_losses": "fan, pumps and PTO train",
    "axle_losses": "from PTO to axles",
    "slip": "slip",
    "rolling": "rolling of the tractor",
    "implement": "rolling of the implement, and grade",
    "gangs": "coulters, leveller or other gangs",
    "soil": "work on the soil",
}
