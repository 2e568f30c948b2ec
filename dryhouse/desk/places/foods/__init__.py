"""The place Handbook."""
