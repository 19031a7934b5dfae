"""Whether the signs of residuals come in too few runs, as where a curve does not follow its readings."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise


def few_runs(residuals: Sequence[float]) -> float:
    """Probability of at most so many runs of one sign, were the signs in random order.

    A. Wald and J. Wolfowitz, Ann. Math. Statist. 11 (1940) 147–162: given the number of residuals of each
    sign, every order is as likely. Zeros are left out.
    """
    signs = [residual > 0 for residual in residuals if residual != 0]
    above, below = sum(signs), len(signs) - sum(signs)
    if above == 0 or below == 0:
        return 1.0
    runs = 1 + sum(left != right for left, right in pairwise(signs))
    orders = 0
    for count in range(2, runs + 1):
        half, odd = divmod(count, 2)
        # The sign that begins has half + odd runs, the other half.
        for first, second in ((above, below), (below, above)):
            orders += math.comb(first - 1, half + odd - 1) * math.comb(second - 1, half - 1)
    return orders / math.comb(above + below, above)
