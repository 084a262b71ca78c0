"""The calculation file, lists and packing list of an assessment."""

from firnstead.reports.report import write_report

__all__ = ["write_report"]
