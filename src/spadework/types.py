"""Array aliases. Days are the last axis and contiguous; years come before days."""

from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

Floats: TypeAlias = NDArray[np.float64]
"""float64 array; NaN where a number is not known."""

Bools: TypeAlias = NDArray[np.bool_]
Ints: TypeAlias = NDArray[np.int64]
Days: TypeAlias = NDArray[np.datetime64]
"""datetime64[D] array."""
