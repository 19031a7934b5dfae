"""What all models share: where a record stands, how its keys are spelt, how it is read from nodes."""

from __future__ import annotations

from typing import Annotated, Any, ClassVar, Self

from pydantic import (
    BaseModel,
    ConfigDict,
    ModelWrapValidatorHandler,
    PrivateAttr,
    ValidationError,
    ValidationInfo,
    WithJsonSchema,
    model_validator,
)

from generator.fault import Doubt, Fault, Place
from generator.records.nodes import Mapping, Node
from generator.records.schema.told import Seen, told

Keys = str | int

AnyNode = Annotated[Any, WithJsonSchema({})]
"""What an open map holds: any node, read later by what the method says of it."""


def key_of(attribute: str) -> str:
    """The key of a record that an attribute holds: `stop_limit` → `stop-limit`, `from_` → `from`."""
    return attribute.rstrip("_").replace("_", "-")


def node_kind(node: object) -> str:
    """Whether a node is a mapping, a sequence or a scalar; picks the form where a key takes several."""
    if isinstance(node, dict):
        return "mapping"
    return "sequence" if isinstance(node, list) else "scalar"


class Record(BaseModel):
    """A mapping in a record, read into attributes; knows where it stands.

    Attribute names are the record's keys with `_` for `-`, and `from_` for `from`.
    """

    model_config = ConfigDict(
        extra="forbid", frozen=True, alias_generator=key_of, arbitrary_types_allowed=True
    )

    first_keys: ClassVar[tuple[str, ...]] = ()
    """Keys that a person writes first, where an inherited order would put them last."""

    _node: Mapping | None = PrivateAttr(None)

    # Keeps the node and checks nothing: a check here would not run once any field is at fault.
    @model_validator(mode="wrap")
    @classmethod
    def _keep_node(cls, node: Any, handler: ModelWrapValidatorHandler[Self], info: ValidationInfo) -> Self:
        if isinstance(info.context, Seen):
            info.context.models[id(node)] = cls
        record = handler(node)
        if isinstance(node, Mapping):
            record.stands_at(node)
        return record

    def stands_at(self, node: Mapping) -> None:
        """Tell it the nodes that it was read from; done once, while it is read."""
        self._node = node

    @classmethod
    def spelt(cls) -> tuple[str, ...]:
        """The keys that it takes, in the order of the model, those that come first in a record first."""
        keys = tuple(key_of(name) for name in cls.model_fields)
        return tuple(dict.fromkeys((*(key for key in cls.first_keys if key in keys), *keys)))

    @classmethod
    def required(cls) -> tuple[str, ...]:
        """The keys that it cannot be without."""
        return tuple(key_of(name) for name, field in cls.model_fields.items() if field.is_required())

    @classmethod
    def first(cls) -> tuple[str, ...]:
        """The keys that it takes, those that it cannot be without first."""
        return tuple(dict.fromkeys((*cls.required(), *cls.spelt())))

    @classmethod
    def takes(cls, key: str) -> bool:
        """Whether a key may stand in it."""
        return key in cls.spelt()

    @classmethod
    def hint(cls, key: str) -> str:
        """What a key is for, in the words of the model."""
        return next((f.description or "" for name, f in cls.model_fields.items() if key_of(name) == key), "")

    @property
    def node(self) -> Mapping:
        """The nodes that it was read from.

        Raises:
            LookupError: It stands in no file, because a default made it.
        """
        if self._node is None:
            raise LookupError("this record was made by a default and stands in no file")
        return self._node

    def place_of(self, *path: Keys) -> Place:
        """Where it stands itself (without a path), or a value below it.

        Args:
            path: Attribute names or keys down to it, and numbers from 0 in lists: `"stopped", "at"`.

        Returns:
            The value's place; where it is not written, that of the nearest mapping or list above it.
        """
        return self._down(path)[0].place

    def path_of(self, *path: Keys) -> str:
        """The keys down to a value from the top of the file, joined by dots; `path` is as in `place_of`."""
        node, rest = self._down(path)
        return _dotted(node.path, rest)

    def key_place_of(self, *path: Keys) -> Place:
        """Where the key of a value below it stands; `path` is as in `place_of`."""
        above, rest = self._down(path[:-1])
        key = _spelt(above, path[-1])
        if not rest and isinstance(above, Mapping) and key in above.key_places:
            return above.key_places[str(key)]
        return above.place

    def fault(
        self, path: tuple[Keys, ...], what: str, found: str | None = None, accepted: tuple[str, ...] = ()
    ) -> Fault:
        """A fault of a value below it; `path` is as in `place_of`."""
        node, rest = self._down(path)
        return Fault(node.place, _dotted(node.path, rest), what, found, accepted)

    def fault_of_key(
        self, path: tuple[Keys, ...], what: str, found: str | None = None, accepted: tuple[str, ...] = ()
    ) -> Fault:
        """A fault of a key below it; `path` is as in `place_of`."""
        above, rest = self._down(path[:-1])
        dotted = _dotted(above.path, (*rest, path[-1]))
        return Fault(self.key_place_of(*path), dotted, what, found, accepted)

    def doubt(self, path: tuple[Keys, ...], what: str, found: str | None = None) -> Doubt:
        """A doubt of a value below it; `path` is as in `place_of`."""
        node, rest = self._down(path)
        return Doubt(node.place, _dotted(node.path, rest), what, found)

    def _down(self, path: tuple[Keys, ...]) -> tuple[Node, tuple[Keys, ...]]:
        """The node at the end of a path as far as it is written, and the rest of the path."""
        node: Node = self.node
        for number, step in enumerate(path):
            key = _spelt(node, step)
            if isinstance(node, Mapping) and key in node:
                node = node[str(key)]
            elif isinstance(node, list) and isinstance(key, int):
                node = node[key]
            else:
                return node, path[number:]
        return node, ()


class FileRecord(Record):
    """A record that is a file of its own, or stands for one."""

    _name: str = PrivateAttr("")
    _doubts: tuple[Doubt, ...] = PrivateAttr(())

    @classmethod
    def from_nodes(cls, root: Mapping, name: str) -> Self | tuple[Fault, ...]:
        """Read a file's nodes.

        Args:
            root: The file's nodes.
            name: The file's name without its ending, or what stands for it.

        Returns:
            The record, or everything that its form has against it.
        """
        seen = Seen()
        try:
            record = cls.model_validate(root, context=seen)
        except ValidationError as error:
            return told(error, root, seen)
        record.is_called(name, tuple(seen.doubts))
        return record

    @property
    def doubts(self) -> tuple[Doubt, ...]:
        """What was read as something else than it is, and may stay."""
        return self._doubts

    def is_called(self, name: str, doubts: tuple[Doubt, ...] = ()) -> None:
        """Tell it its file's name and what was doubtful in it; done once, while it is read."""
        self._name = name
        self._doubts = doubts

    @property
    def id(self) -> str:
        """The file's name without its ending; of a report its folder's."""
        return self._name


def _spelt(node: Node, step: Keys) -> Keys:
    if isinstance(step, int) or (isinstance(node, Mapping) and step in node):
        return step
    return key_of(step)


def _dotted(path: str, rest: tuple[Keys, ...]) -> str:
    steps = (str(step + 1) if isinstance(step, int) else key_of(step) for step in rest)
    return ".".join(part for part in (path, *steps) if part)
