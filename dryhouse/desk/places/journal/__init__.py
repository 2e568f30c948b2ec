"""The place Journal."""
