"""``python -m conemodel``: the command line."""

from conemodel.cli import main

if __name__ == "__main__":
    main()
