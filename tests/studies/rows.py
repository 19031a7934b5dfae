"""Rows of the studies' tables: what is varied, and the seeds."""

from __future__ import annotations

from tests.studies import ahead, ohms
from tests.studies.coverage import COUNTS, RATIOS, Combination
from tests.studies.healthy import Kind
from tests.studies.infrared import POOR, Row
from tests.studies.single import Meters

SEED_COVERAGE = 20260301
SEED_RANKS = 20260302
SEED_HEALTHY = 20260303

COMBINATIONS = [Combination(ratio, count) for count in COUNTS for ratio in RATIOS]
RESISTANCES = [ohms.Combination(ratio, count) for count in COUNTS for ratio in RATIOS]
RESISTANCE_OF_ONE = ohms.Combination(1.0, 1)
METERS_APART = [Combination(ratio, count, sets=2) for count in COUNTS for ratio in RATIOS]
"""Each item read by meters of its own, of the same class."""

SINGLES_APART = Meters(sets=2)
AHEAD = [ahead.Row(ratio, count) for count in ahead.COUNTS for ratio in RATIOS]
SINGLES = [Meters(), Meters(measured=False)]
STILL_ROOM = Meters(moving_room=0.0)
FINE_METERS = Meters(scale=0.25)
"""Four times as good as the bench's: what one time constant cannot follow is then no longer hidden."""

COOL = Meters(rise=15.0)
"""Where the box's own time constant is below the noise, so that settled rises are printed."""

CLEAN = Kind()
SLOW = Kind(slow=0.1)
SLOWER = Kind(slow=0.1, slower=6.0)
SLOWEST = Kind(slow=0.1, slower=10.0)
DRIFTING = Kind(slow=0.1, drift=0.02)
HEALTHY = [CLEAN, SLOW, Kind(drift=0.02), DRIFTING, Kind(rise=30.0, slow=0.1, drift=0.02)]
HOT = Kind(rise=75.0, slow=0.1, drift=0.02)
SHORT_RUNS = [Kind(taus=3.0), Kind(taus=3.0, slow=0.1, drift=0.02)]
THRICE = 0.075
"""Three times the allowance of 2.5 % an hour."""

WORSENING = [Kind(worsening=THRICE), Kind(slow=0.1, drift=0.02, worsening=THRICE)]
EQUAL = [1, 2, 3, 4, 5]
HOTTER = [(3, 5.0), (2, 8.0)]
LOOSER = [2, 3, 4, 5]
"""Pieces of each item where one of them scatters three times as much as the others."""

SEED_INFRARED = 20260304
SEED_AHEAD = 20260305
SEEN = [Row(ratio, count) for count in (1, *COUNTS) for ratio in (RATIOS if count > 1 else (1.0,))]
"""By camera over tape; of one piece no spread between pieces enters, whatever the ratio."""

SEEN_POORLY = [Row(1.0, count, POOR) for count in (1, *COUNTS)]
