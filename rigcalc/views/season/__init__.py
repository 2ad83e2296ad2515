"""The page of the season: is it done in time, the bar of the day, what would help, what it costs."""
