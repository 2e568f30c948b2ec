"""The cautions of a food, a batch, a lot or a meal, from its records."""
