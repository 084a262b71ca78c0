"""The calculation file, lists and packing list of an assessment; `report.write_report` writes them all."""
