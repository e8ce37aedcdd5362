"""A hand, measured: pairs of hubs that follow its answers, and the least difference it tells, with its bias."""
