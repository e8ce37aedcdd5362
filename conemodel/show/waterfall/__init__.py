"""Where the play went: the terms of end play one below the other."""
