"""Published tables of the air discipline."""
