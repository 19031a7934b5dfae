"""What the demonstration bench tests and what it tests with: products as made, meters as stated, the rig."""

from __future__ import annotations

from dataclasses import replace

from tests.simulator.heat import COPPER, Fitting
from tests.simulator.meters import Accuracy, Conduction, generator
from tests.simulator.rig import LEAD, Place, Population, Rig, Wiring

SEED = 20260224

LOGGER = Accuracy(share=0.005, fixed=0.5, resolution=0.1, noise=0.04)
CLAMP = Accuracy(share=0.01, fixed=0.2, resolution=0.1, noise=0.02)
VOLTMETER = Accuracy(share=0.005, fixed=0.3, resolution=0.1, noise=0.04)
RIG = Rig(SEED, LOGGER, CLAMP, VOLTMETER)

CABLE = "cable"
HOLDERS = {
    CABLE: Population(resistance=LEAD, spread=0.0, to_box=0.0395, capacity=17.0, coefficient=COPPER),
    "tessvik-t30": Population(resistance=1.70e-3, spread=0.04),
    "veldrun-v30": Population(resistance=1.78e-3, spread=0.04),
    "okvarn-ih30": Population(resistance=3.14e-3, spread=0.03),
    "pallsto-f30": Population(resistance=3.43e-3, spread=0.03),
    "grenlo-30": Population(resistance=4.43e-3, spread=0.05),
}
"""Heated at 30 A their rises come out near 14 K for the plain cable and 28, 30, 53, 62 and 75 K."""

CHANGED = {"okvarn-ih30": Population(resistance=3.9e-3, spread=0.03)}
"""The contact of pieces as sold since the maker changed it without a word: 69 K where it was 54."""

CHANGED_PIECES = {("okvarn-ih30", letter) for letter in "EFG"}

SOCKETS = {
    "tessvik-s12": Population(resistance=5.0e-3, spread=0.06, to_box=0.09, capacity=40.0),
    "okvarn-ps15": Population(resistance=7.0e-3, spread=0.06, to_box=0.09, capacity=40.0),
    "ulmspar-u20": Population(resistance=8.7e-3, spread=0.06, to_box=0.09, capacity=40.0),
    "brundivar-b10": Population(resistance=13.5e-3, spread=0.10, to_box=0.09, capacity=40.0),
    "skavrint-p12": Population(resistance=8.0e-3, spread=0.06, to_box=0.09, capacity=40.0),
}
"""With a plug, heated at 15 A; at 10 A they come to somewhat less than half of it."""

POPULATIONS = HOLDERS | SOCKETS
WORSENING = {("grenlo-30", "C"): 0.2}
"""Item and letter of the pieces whose joint worsens, to the share of the resistance gained per hour."""


def piece(item: str, specimen: str) -> Fitting:
    """The piece itself; the same one whenever it is heated."""
    # Each pass of the cable is the same cable.
    name = "1" if item == CABLE else specimen
    stock = CHANGED if (item, specimen) in CHANGED_PIECES else POPULATIONS
    sound = stock[item].drawn(generator(SEED, "piece", item, name), 1)
    return replace(sound, worsening=WORSENING.get((item, specimen), 0.0))


def place(item: str, specimen: str, channel: str, lead: float = LEAD, times: float = 1.0) -> Place:
    """A piece in the rig.

    Args:
        item: Id of the item.
        specimen: Letter of the piece.
        channel: Of its thermometer as a record names it, `CH3` or `CH3 with k7`.
        lead: Resistance at 20 °C of the cable between the marks besides the piece, Ω.
        times: How many times the piece's resistance what is plugged into it makes of it.
    """
    socket, _, other = channel.partition(" with ")
    common = generator(SEED, "conduction", "cement").uniform(0.2, 0.6)
    own = generator(SEED, "conduction", item).uniform(0.0, 0.3)
    wiring = Wiring(socket, other or f"k{socket.removeprefix('CH')}")
    # On the control the marks are as far apart as the cable that goes with a holder.
    plain = piece(item, specimen)
    fitting = replace(plain, resistance=plain.resistance * times)
    return Place(fitting, wiring, Conduction(common, own), 0.0 if item == CABLE else lead)


TOOLS = {
    "tessvik-t30": "screwdriver, hand-tight",
    "veldrun-v30": "ratchet crimper",
    "okvarn-ih30": "lever",
    "pallsto-f30": "pliers",
    "grenlo-30": "pliers",
    "tessvik-s12": "ratchet crimper, blade terminals of 6.3 mm",
    "okvarn-ps15": "ratchet crimper, blade terminals of 6.3 mm",
    "ulmspar-u20": "ratchet crimper, blade terminals of 6.3 mm",
    "brundivar-b10": "ratchet crimper, blade terminals of 6.3 mm",
    "skavrint-p12": "ratchet crimper, blade terminals of 6.3 mm",
    "dorvekk-r6": "ratchet crimper",
    "skavrint-m6": "ratchet crimper",
    "ulmspar-46": "ratchet crimper",
}
