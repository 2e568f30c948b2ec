"""Widgets that every place shares."""
