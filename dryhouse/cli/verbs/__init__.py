"""One small module a verb, or a few that belong together."""
