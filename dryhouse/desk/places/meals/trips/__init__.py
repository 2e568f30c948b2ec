"""The trips of the Meals place: days, grid, lots and plan."""
