"""Pipes through the passages: losses, time to freeze, tracing, flow, falls, expansion."""

from firnstead.pipes.results import PipesResult, RunResult
from firnstead.pipes.study import study

__all__ = ["PipesResult", "RunResult", "study"]
