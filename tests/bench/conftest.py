"""One thread for linear algebra, before numpy is loaded: several wait for each other by spinning, which costs time too.

Times are of one core, so that they can be held against each other in one run.
"""

import os

for threads in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ.setdefault(threads, "1")
