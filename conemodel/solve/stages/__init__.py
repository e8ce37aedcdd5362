"""The terms of end play: what finger, cone, locknut and clamp each add to it."""
