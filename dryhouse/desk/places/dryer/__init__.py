"""Drying now: what is on the dryers, how far it is, and when it will be done."""
