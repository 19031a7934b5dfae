"""What a bench holds that a new record can refer to."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from generator.records.drafts import Draft, drafts
from generator.records.library import Library, fill
from generator.records.schema.electrical import ElectricalBase
from generator.records.schema.measures import HeatingMeasure, ScalarMeasure
from generator.records.schema.method import Method
from generator.records.schema.references import MethodRef
from generator.records.selection import Runs
from generator.records.tree import survey


@dataclass(frozen=True)
class Offers:
    """What there is.

    Attributes:
        root: The folder of the bench.
        library: Every record whose form is sound.
        runs: Every run, those that wait for their readings among them.
        unread: How many records are at fault, and so not offered.
    """

    root: Path
    library: Library
    runs: Runs
    unread: int

    @property
    def methods(self) -> tuple[str, ...]:
        """Every method by its newest version, then the older ones."""
        found = self.library.methods.items()
        newest = [f"{name}/{max(versions)}" for name, versions in sorted(found)]
        older = [f"{name}/{each}" for name, versions in sorted(found) for each in sorted(versions)]
        return tuple(dict.fromkeys((*newest, *older)))

    def method(self, name: str) -> Method:
        """The method of a name that is offered.

        Raises:
            KeyError: It is not.
        """
        ref = ref_of(name)
        return self.library.methods[ref.id][ref.version]

    def meters(self, quantity: str) -> tuple[str, ...]:
        """What can read a quantity, each with its channels."""
        able = (meter for _, meter in sorted(self.library.instruments.items()) if meter.range_of(quantity))
        return tuple(
            f"{meter.id}/{channel}" if channel else meter.id
            for meter in able
            for channel in (meter.channels or ("",))
        )

    def unit(self, binding: str, quantity: str) -> str:
        """The unit that a meter's range of a quantity ends in, as it is typed."""
        meter = self.library.instruments[binding.split("/", maxsplit=1)[0].split(maxsplit=1)[0]]
        return meter.range_of(quantity)[0].to.unit.typed

    def pieces(self, item: str) -> tuple[str, ...]:
        """The pieces of an item."""
        return tuple(self.library.items[item].specimens)

    def like(self, run: str) -> tuple[Draft, ...]:
        """The runs of a name: of an id, or of its last part where that is one run only."""
        exact = self.runs.by_id.get(run)
        if exact is not None:
            return (exact,)
        return tuple(each for key, each in self.runs.by_id.items() if key.rpartition("/")[2] == run)


def offers(root: Path) -> Offers:
    """Read what a bench holds."""
    root = root.absolute()
    tree = survey(root / "reports")
    library, _, _ = fill(tree.records, tree.csv, tree.meant)
    return Offers(root, library, Runs.of(drafts(library)), len(library.broken))


def ref_of(name: str) -> MethodRef:
    """A method's version in its two parts."""
    method, _, version = name.rpartition("/")
    return MethodRef(method, int(version))


@dataclass(frozen=True)
class Asked:
    """A column that a method's runs have.

    Attributes:
        key: As `instruments` names it: `temperature@body`.
        quantity: What it holds.
        what: What is read, in plain words.
        need: `must` be read; `should`, or there is no figure; `may` be left out.
    """

    key: str
    quantity: str
    what: str
    need: str = "must"


def over_time(method: Method) -> bool:
    """Whether its runs have readings over time."""
    return any(isinstance(each, HeatingMeasure) for each in method.measures)


def shared_columns(method: Method) -> tuple[Asked, ...]:
    """The columns of a run over time that belong to the bench and not to the part."""
    current = "should" if "current" in method.conditions else "may"
    return (
        Asked("ambient", "temperature", "the air", "may"),
        Asked("current", "current", "the current", current),
    )


def own_columns(method: Method) -> tuple[Asked, ...]:
    """The columns of a run over time that belong to the part."""
    return tuple(
        Asked(f"temperature@{point}", "temperature", f"the temperature at '{point}'")
        for point in method.points
    )


def columns(method: Method) -> tuple[Asked, ...]:
    """The columns and values of a run in a file of its own, in the order of its table."""
    over = (*own_columns(method), *shared_columns(method)) if over_time(method) else ()
    drop = (Asked("drop", "voltage", "the voltage drop across the part", "may"),) if over else ()
    paired = () if over else pair_columns(method)
    return (*over, *drop, *paired, *(_of_scalar(method, each) for each in scalars(method)))


def pair_columns(method: Method) -> tuple[Asked, ...]:
    """The columns of a run that is a table of drops and currents; none by a method without such a measure."""
    if not any(isinstance(each, ElectricalBase) for each in method.measures):
        return ()
    return (
        Asked("drop", "voltage", "the voltage drop between the probe points"),
        Asked("current", "current", "the current"),
        Asked("ambient", "temperature", "the air", "should"),
    )


def scalars(method: Method) -> tuple[ScalarMeasure, ...]:
    """Its measures of one quantity a run."""
    return tuple(each for each in method.measures if isinstance(each, ScalarMeasure))


def _of_scalar(method: Method, measure: ScalarMeasure) -> Asked:
    return Asked(scalar_key(method, measure), measure.quantity, measure.name or measure.id)


def scalar_key(method: Method, measure: ScalarMeasure) -> str:
    """What names a measure's meter: its quantity, where no other measure has the same, else its id."""
    others = [each for each in scalars(method) if each.quantity == measure.quantity]
    return measure.quantity if len(others) == 1 and " " not in measure.quantity else measure.id
