"""Whether one item scatters more: Cochran's table, and how often it is said falsely."""

from __future__ import annotations

import csv
import math
from pathlib import Path

import numpy as np
import pytest

from generator.analysis.scatter import critical_ratio, scatters_more

PUBLISHED = Path(__file__).parents[1] / "published"


def test_cochrans_table() -> None:
    """National Measurement System, Chemical and Biological Metrology, "Cochran test", 14 January 2009."""
    with (PUBLISHED / "cochran-critical-5pct.csv").open(encoding="utf-8") as file:
        for row in csv.DictReader(file):
            items = int(row["items"])
            for n in (2, 3, 4, 5):
                f = critical_ratio(n - 1, (items - 1) * (n - 1), items)
                # The table is of an upper bound of the level too; it is told to three places.
                assert f / (f + items - 1) == pytest.approx(float(row[f"n{n}"]), abs=0.0021), (items, n)


def test_worked_by_hand() -> None:
    # Variances 1, 1 and 100; the largest over the mean of the others is 100, C = 100/102 > 0.871.
    found = scatters_more([(0.0, 1.0, 2.0), (5.0, 6.0, 7.0), (0.0, 10.0, 20.0)])
    assert found is not None
    assert (found.place, found.deviation, found.others) == (2, 10.0, 1.0)
    assert found.ratio == pytest.approx(100.0)
    assert found.critical == pytest.approx(2 * 0.871 / (1 - 0.871), rel=0.01)


def test_the_handbooks_groups_scatter_alike() -> None:
    """NIST/SEMATECH e-Handbook 7.4.3.3: three groups of five that an analysis of variance is made of."""
    groups = [(6.9, 5.4, 5.8, 4.6, 4.0), (8.3, 6.8, 7.8, 9.2, 6.5), (8.0, 10.5, 8.1, 6.9, 9.3)]
    assert scatters_more(groups) is None


def test_who_takes_no_part() -> None:
    assert scatters_more([(1.0, 9.0)]) is None
    assert scatters_more([(1.0, 9.0, 3.0), (5.0,)]) is None
    assert scatters_more([(1.0, 1.0), (2.0, 2.0)]) is None


def test_others_on_one_step_are_not_steadier_than_a_step() -> None:
    items = [(20.0, 20.0, 20.0), (21.0, 21.0, 21.0), (30.0, 30.1, 30.2)]
    assert scatters_more(items, resolution=0.1) is None
    assert scatters_more(items, resolution=0.001) is not None


def test_items_that_scatter_alike_are_told_apart_in_five_of_a_hundred() -> None:
    draws = np.random.default_rng(41).normal(size=(4000, 5, 3))
    told = sum(scatters_more(report.tolist()) is not None for report in draws)
    assert told / 4000 == pytest.approx(0.05, abs=3 * math.sqrt(0.05 * 0.95 / 4000))
