"""The wheel that turns on the bearing: torque, dents, drag, coasting, rocking."""
