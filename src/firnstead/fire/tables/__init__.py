"""Published tables of the fire study as CSV; extinguishers.table reads them."""
