"""How long a test waits for what must come: so long that only what hangs is ever given up.

Nothing is asserted about speed. A machine of a third of the speed, or one that does other work, has time enough.
"""

PATIENCE = 600
"""Before a page, a server or a process is given up [s]."""

PATIENCE_MS = 1000 * PATIENCE
"""The same for a browser [ms]."""
