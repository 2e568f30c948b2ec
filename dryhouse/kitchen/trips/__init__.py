"""Trips: days, lots, what to dry and buy, and what goes into each bag."""
