"""Four widgets for the hand: rock the wheel, twirl the axle, turn the cone, spin the wheel.

They run in the browser, driven by curves computed in Python, which hears of a gesture once it is over. What a
contract holds goes to the reader's browser as it stands: the curves must be there to be felt. Hidden numbers of an
exercise that no hand, ear or eye needs (target, window, thread fit, clamp force) stay out of them.
"""
