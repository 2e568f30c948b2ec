"""Qt models: lists and tables that fetch only what is in view."""
