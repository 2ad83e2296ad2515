"""The page "The ground": may it be worked, how deep, and do the wheels put it back; with a picture of the soil."""
