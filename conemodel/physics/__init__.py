"""One function per published equation: contact, thread, locked joint, clamp, friction, rating, packing."""
