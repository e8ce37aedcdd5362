"""Units, errors and the bibliography: what every other room stands on."""
