"""The places of the desk: a folder each, with a light spec and a view imported on first show."""
