"""What the pages about a rig share: the choice of a rig, its picture from the side, limits as gauges."""
