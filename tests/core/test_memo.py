"""Remembering results by their inputs."""

from firnstead.core.memo import Memo


def test_a_result_is_made_once_for_each_key() -> None:
    """The same key gives the kept result; another key makes its own."""
    made: list[str] = []
    memo = Memo()
    for key in ("a", "a", "b", "a"):
        memo.get(key, lambda key=key: made.append(key))  # type: ignore[misc]
    assert made == ["a", "b"]


def test_the_oldest_results_go_first_when_it_is_full() -> None:
    """A full memo forgets the key that was made longest ago."""
    made: list[str] = []
    memo = Memo(size=2)
    for key in ("a", "b", "a", "c", "b", "a"):
        memo.get(key, lambda key=key: made.append(key))  # type: ignore[misc]
    assert made == ["a", "b", "c", "a"]
