"""Check a hub: from what a mechanic can measure to what to do."""
