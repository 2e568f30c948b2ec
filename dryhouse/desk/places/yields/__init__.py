"""Yields: how much dried a fresh amount gives, and how much fresh a dried amount takes."""
