"""The place Meals."""
