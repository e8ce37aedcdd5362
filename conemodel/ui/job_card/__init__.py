"""The page Job cards: one card in hand, and all that were written."""
