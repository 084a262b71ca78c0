"""Units, sources, results and errors that everything else stands on."""
