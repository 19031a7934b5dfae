"""What a run says of its conditions, typed as its method has them; and its values, typed as its measures."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import partial
from typing import TypeVar

from generator.fault import Doubt, Fault
from generator.records.drafts import Draft
from generator.records.nodes import Mapping, Node, Scalar
from generator.records.quantity import Quantity, QuantityError, Range, parse_quantity, plain_quantity
from generator.records.run import AmbientMode, Said
from generator.records.schema.measures import typed_quantity
from generator.records.schema.method import Method, Toleranced
from generator.records.schema.told import nearest
from generator.records.taken_for import signs_of
from generator.records.units import TEMPERATURE

AMBIENT = "ambient"
AIR_MEASURED = "air-measured"
FIRST_READING = "first reading"

T = TypeVar("T")


@dataclass
class Conditions:
    """What was read.

    Attributes:
        said: Condition to what the run says of it.
        mode: How `ambient` is said among the conditions; `none` where it is not.
        start: The air at the start, or the single value.
        end: The air at the end, where two values are said.
        node: What says the air.
        faults: What could not be read.
        doubts: What was read as something else than it is, and may stay.
    """

    said: dict[str, Said] = field(default_factory=dict)
    mode: AmbientMode = "none"
    start: Quantity | None = None
    end: Quantity | None = None
    node: Node | None = None
    faults: list[Fault] = field(default_factory=list)
    doubts: list[Doubt] = field(default_factory=list)

    def read(self, node: Node, parse: Callable[[str], T]) -> T | None:
        """Read a scalar; None, and a fault more, where it is something else."""
        if not isinstance(node, Scalar):
            self.faults.append(Fault(node.place, node.path, "one value is expected here"))
            return None
        if node.is_null:
            self.faults.append(Fault(node.place, node.path, "no value here; one is expected, or no key"))
            return None
        try:
            found = parse(node.text)
        except QuantityError as error:
            self.faults.append(Fault(node.place, node.path, error.what, node.text, error.accepted))
            return None
        if not isinstance(found, str):
            self.doubts.extend(signs_of(node))
        return found


def known_conditions(method: Method) -> tuple[str, ...]:
    """The keys that `conditions` of a run takes."""
    return (AMBIENT, *(key for key in method.conditions if key not in {AMBIENT, AIR_MEASURED}), AIR_MEASURED)


def read_conditions(draft: Draft, method: Method) -> Conditions:
    """Read what a run and its sitting say of the conditions; what the run itself says counts."""
    found = Conditions()
    for number, mapping in enumerate(draft.conditions):
        for key, node in mapping.items():
            if key == AMBIENT:
                _air(found, node)
            elif key == AIR_MEASURED:
                found.said[key] = found.read(node, str.strip) or ""
            elif key in method.conditions:
                value = found.read(node, _parser(method, key))
                if value is not None:
                    found.said[key] = value
            elif not draft.sitting or number == 1:
                found.faults.append(_unknown(mapping, key, known_conditions(method)))
    return found


def _unknown(mapping: Mapping, key: str, known: tuple[str, ...]) -> Fault:
    what = f"unknown key{nearest(key, known)}"
    return Fault(mapping.key_places[key], f"{mapping.path}.{key}", what, None, known)


def _parser(method: Method, key: str) -> Callable[[str], Said]:
    asked = method.conditions[key]
    if isinstance(asked, Toleranced):
        return lambda text: plain_quantity(text, asked.value.quantity)
    if isinstance(asked, Range):
        return lambda text: plain_quantity(text, asked.low.quantity)
    return str.strip


def _air(found: Conditions, node: Node) -> None:
    """The air: one value, `first reading`, or `{start: …, end: …}`."""
    found.node = node
    found.start = found.end = None
    if isinstance(node, Mapping):
        found.mode = "start-end"
        for key in node:
            if key not in {"start", "end"}:
                found.faults.append(_unknown(node, key, ("start", "end")))
        for key in ("start", "end"):
            if key not in node:
                found.faults.append(Fault(node.place, f"{node.path}.{key}", "missing: the air at the " + key))
        found.start = _temperature(found, node.get("start"))
        found.end = _temperature(found, node.get("end"))
    elif node == FIRST_READING:
        found.mode = "first reading"
    else:
        found.mode = "single value"
        found.start = _temperature(found, node)


def _temperature(found: Conditions, node: Node | None) -> Quantity | None:
    if node is None:
        return None
    return found.read(node, lambda text: plain_quantity(text, TEMPERATURE))


def read_values(draft: Draft, method: Method) -> tuple[dict[str, Quantity], list[Fault]]:
    """Read the values of a run, each in the quantity of its measure."""
    reader = Conditions()
    values: dict[str, Quantity] = {}
    for name, node in draft.body.values.items():
        quantity = typed_quantity(method.measure(name))
        if quantity:
            value = reader.read(node, partial(parse_quantity, quantity=quantity))
            if value is not None:
                values[name] = value
    return values, [*reader.faults, *reader.doubts]
