"""``python -m conemodel``: the command line."""

import gc

# What is made while modules load stays; looking for garbage among it again and again took a third of a prediction.
gc.disable()
from conemodel.cli import main  # noqa: E402

gc.freeze()
gc.enable()

if __name__ == "__main__":
    main()
