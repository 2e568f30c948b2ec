"""The place Shelf."""
