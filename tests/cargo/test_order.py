"""Steps of work before an item."""

import networkx as nx
from hypothesis import given
from hypothesis import strategies as st

from firnstead.cargo.order import steps_before


@given(st.lists(st.tuples(st.integers(0, 14), st.integers(0, 14)), max_size=40))
def test_longest_chain_against_networkx(pairs):
    """The steps are the longest chain found by an independent library on the same network."""
    links = {(min(a, b), max(a, b)) for a, b in pairs if a != b}
    after = {str(n): tuple(str(a) for a, b in links if b == n) for n in range(15)}
    graph = nx.DiGraph([(str(a), str(b)) for a, b in links])
    graph.add_nodes_from(after)
    longest = dict.fromkeys(after, 0)
    for n in nx.topological_sort(graph):
        for follower in graph.successors(n):
            longest[follower] = max(longest[follower], longest[n] + 1)
    assert steps_before(after) == longest


def test_ring_can_never_start():
    """Items that wait for one another get the number of all items; what stands apart is not touched."""
    steps = steps_before({"a": ("b",), "b": ("a",), "c": ("b",), "d": ()})
    assert steps == {"a": 4, "b": 4, "c": 4, "d": 0}
