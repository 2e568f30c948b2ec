"""The handbook: published figures shipped with the program, each with its source."""
