"""The mathematics of drying: pure reckoning, with no window, no database, no file and no clock."""
