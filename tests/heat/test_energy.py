"""Sharing heaters among buildings; stack, doorways and films in their limits."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from firnstead.heat.airflow import doorway_exchange, stack_flow
from firnstead.heat.energy import share_out
from firnstead.heat.vapour import frost_rate

watts = st.floats(0.0, 1e5)


@given(arrays(float, (4, 3), elements=watts), arrays(float, (2, 4), elements=st.sampled_from([0.0, 1.0])),
       arrays(float, (2, 3), elements=watts))  # fmt: skip
def test_heaters_give_no_more_than_they_have_nor_than_is_wanted(demand, serves, output):
    """Each heater stays within its output, gives to whom it serves alone, and no building gets more than it wants."""
    given_heat = share_out(demand, serves, output)
    assert np.all(given_heat.sum(axis=1) <= output * (1 + 1e-12) + 1e-9)
    assert np.all(given_heat.sum(axis=0) <= demand * (1 + 1e-12) + 1e-9)
    assert np.all(given_heat[serves == 0.0] == 0.0)
    left = demand - given_heat.sum(axis=0)
    for h in range(2):  # a building that still wants heat has used up every heater that serves it
        short = (left * serves[h][:, None]).sum(axis=0) > 1e-6
        assert np.all(np.abs(given_heat[h].sum(axis=0) - output[h])[short] < 1e-6)


def test_no_stack_without_warmth():
    """Cracks pass nothing where the inside is not the warmer; the flow grows as the root of height."""
    assert stack_flow(0.02, 5.0, 1e5, 260.0, 260.0) == 0.0
    assert stack_flow(0.02, 5.0, 1e5, 260.0, 250.0) == 0.0
    assert abs(stack_flow(0.02, 20.0, 1e5, 250.0, 290.0) / stack_flow(0.02, 5.0, 1e5, 250.0, 290.0) - 2.0) < 1e-12


def test_a_doorway_exchanges_both_ways_alike():
    """The exchange does not know which side is the warmer, and people keep a little of it at equal warmth."""
    assert doorway_exchange(2.0, 2.0, 5.0, 250.0) == doorway_exchange(2.0, 2.0, -5.0, 250.0)
    assert 0.0 < doorway_exchange(2.0, 2.0, 0.0, 250.0) < 0.2 * doorway_exchange(2.0, 2.0, 5.0, 250.0)


def test_dry_rooms_leave_no_frost():
    """A room no moister than the trench leaves no frost; a moist one does, the more the more air leaves."""
    assert frost_rate(0.1, 290.0, 0.01, 262.0) == 0.0
    assert frost_rate(0.2, 290.0, 0.4, 255.0) == 2.0 * frost_rate(0.1, 290.0, 0.4, 255.0)
