"""One-pot meals: their ingredients, water, figures and cautions."""
