"""Jars and bags: packing, places, checks, what is left and how long it keeps."""
