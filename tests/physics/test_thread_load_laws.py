"""Clamp load entering along a thread: limits, and a chain of springs with nothing of the core in it."""

import numpy as np
import pytest

from conemodel.base.errors import OutOfDomain
from conemodel.physics.thread_load import bridged_thread_share, shortening_factor

BRIDGE = {"engaged_length": 15e-3, "thread_compliance": 3e-10, "axle_rigidity": 8.2e6, "body_rigidity": 30e6}


def chain_shortening(*, length, compliance, axle, body, bare, pieces=400):
    """Return how far a cone's inboard end nears the hub's middle per newton [m/N].

    An axle of `bare` length inboard of the thread, then `pieces` of axle and cone joined by springs; one newton enters
    the axle at its outboard end, the hub's middle is held.
    """
    nodes = pieces + 1  # of the axle first, then of the cone; both from inboard to outboard
    step, spring = length / pieces, 1 / (compliance * nodes)
    stiffness = np.zeros((2 * nodes, 2 * nodes))
    for start, rigidity in ((0, axle), (nodes, body)):
        for n in range(start, start + pieces):
            stiffness[n : n + 2, n : n + 2] += rigidity / step * np.array([[1, -1], [-1, 1]])
    for n in range(nodes):
        pair = np.ix_((n, n + nodes), (n, n + nodes))
        stiffness[pair] += spring * np.array([[1, -1], [-1, 1]])
    stiffness[0, 0] += axle / bare
    force = np.zeros(2 * nodes)
    force[pieces] = 1.0  # inboard
    return np.linalg.solve(stiffness, force)[nodes]


def test_a_hundred_random_threads_against_a_chain_of_springs():
    random = np.random.default_rng(9)
    for _ in range(100):
        length, bare = random.uniform(6e-3, 20e-3), random.uniform(20e-3, 45e-3)
        compliance = random.uniform(1e-10, 8e-10)
        axle, body = random.uniform(5e6, 15e6), random.uniform(10e6, 50e6)
        share = bridged_thread_share(
            engaged_length=length, thread_compliance=compliance, axle_rigidity=axle, body_rigidity=body
        )
        distance = 2 * bare + length
        factor = shortening_factor(
            root_area=1.0, area=1.0, distance=distance, engaged_length=length, bridged_share=share
        )
        found = factor * distance / 2 / axle
        expected = chain_shortening(length=length, compliance=compliance, axle=axle, body=body, bare=bare)
        assert found == pytest.approx(expected, rel=0.02)


def test_a_soft_thread_leaves_the_rule_of_the_middle_and_a_stiff_one_the_bare_length():
    soft, stiff = (bridged_thread_share(**BRIDGE | {"thread_compliance": give}) for give in (1e-6, 1e-16))
    assert soft == pytest.approx(1.0, abs=1e-3)
    assert stiff == pytest.approx(0.0, abs=2e-3)
    size = {"root_area": 40e-6, "area": 40e-6, "distance": 70e-3, "engaged_length": 15e-3}
    assert shortening_factor(**size, bridged_share=1.0) == 1.0
    assert shortening_factor(**size, bridged_share=1e-9) == pytest.approx(55 / 70)


def test_the_demo_axle_by_hand():
    # Root 8.773 and stress diameter 9.062 less a bore of 5.1: 40.02 and 44.07 mm², so 0.908; thread 15 mm of 70,
    # u = ½ √[(1/8.2 + 1/30)/MN · 15 mm/0.3 nm/N] = 1.39: share 0.635, length 0.922.
    share = bridged_thread_share(**BRIDGE)
    assert share == pytest.approx(0.635, abs=0.002)
    factor = shortening_factor(
        root_area=40.02e-6, area=44.07e-6, distance=70e-3, engaged_length=15e-3, bridged_share=share
    )
    assert factor == pytest.approx(0.837, abs=0.002)


def test_values_out_of_range():
    for name in BRIDGE:
        with pytest.raises(OutOfDomain):
            bridged_thread_share(**BRIDGE | {name: 0.0})
    good = {
        "root_area": 40e-6,
        "area": 44e-6,
        "distance": 70e-3,
        "engaged_length": 15e-3,
        "bridged_share": 0.7,
    }
    for wrong in ({"area": 39e-6}, {"distance": 14e-3}, {"bridged_share": 0.0}, {"bridged_share": 1.1}):
        with pytest.raises(OutOfDomain):
            shortening_factor(**good | wrong)
