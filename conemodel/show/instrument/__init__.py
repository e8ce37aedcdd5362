"""The instrument: one hub, its spanner and its lever, as data that a browser moves and paper prints."""
