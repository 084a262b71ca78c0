"""Runs the studies of all disciplines on one station."""

from firnstead.pipeline.assess import Assessment, assess

__all__ = ["Assessment", "assess"]
