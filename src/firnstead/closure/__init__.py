"""Closure of a trench: plane-strain creep of the firn round its section, stepped through the years."""
