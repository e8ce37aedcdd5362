"""The one way the physics refuses a value for which a formula means nothing."""

import numpy as np
import numpy.typing as npt

from conemodel.base.errors import OutOfDomain


def require(inside: bool | np.bool | npt.NDArray[np.bool], rule: str) -> None:
    """Raise `OutOfDomain` with the broken `rule` unless every element is `inside`.

    Write the test so that nan fails it (``x > 0``, not ``~(x <= 0)``): a nan is then refused as well.

    >>> require(2.0 > 1.0, "two is above one")
    >>> require(np.array([1.0, np.nan]) > 0.0, "load must be above 0 N")
    Traceback (most recent call last):
    conemodel.base.errors.OutOfDomain: load must be above 0 N
    """
    if (
        inside is True or inside is np.True_ or np.all(inside)
    ):  # most are single numbers: no need to look inside
        return
    raise OutOfDomain(rule)
