"""Hubs and mechanics that break what the diagnosis assumes, and how well it does on them.

`hub`, `rows`, `clamp`, `truth` and `mechanic` are a model of their own: they share no equation with the package and
read none of its assumptions. What is drawn stands in `hub` and `mechanic`. `trial` hands the readings to the package
and judges its answers; `calibration` counts them; `python -m tests.tasks.diagnosis.adversarial` prints the table.
"""
