"""Questions to a person: asked one by one at a terminal, or answered by options."""

from __future__ import annotations

import sys
from collections.abc import Callable, Mapping
from dataclasses import dataclass

import click

from generator.cli.bench import wrong_use
from generator.intake.taking import Check, NotTaken, readable

STOPPED = 130
"""How a program ends that Ctrl+C stopped."""


@dataclass(frozen=True)
class Question:
    """One fact that is asked.

    Attributes:
        option: The option that answers it: `--maker`.
        text: The question, in plain words.
        example: An answer.
        accepted: The words that it takes, where these are few.
        lead: What stands before these.
        default: What Enter takes; empty for none.
        without: What Enter means where nothing need be said; empty where an answer is needed.
        check: What is kept of an answer; raises `NotTaken`.
        value: How the option's value is written in a message.
    """

    option: str
    text: str
    example: str = ""
    accepted: tuple[str, ...] = ()
    default: str = ""
    without: str = ""
    check: Check = str
    value: str = ""
    lead: str = "one of"

    @property
    def can_wait(self) -> bool:
        """Whether it can go without an answer."""
        return bool(self.default or self.without)

    @property
    def as_option(self) -> str:
        """How it is answered without being asked."""
        option = self.option.split()[0]
        return f"{option} {self.value or option.lstrip('-').upper()}"


def has_terminal() -> bool:
    """Whether a person can be asked."""
    return sys.stdin.isatty()


class Asker:
    """Asks what the options do not answer."""

    def __init__(self, given: Mapping[str, str]) -> None:
        """Begin to ask.

        Args:
            given: Options to their values; empty for one that was not given.
        """
        self._given = {option: value for option, value in given.items() if value}
        self._terminal = has_terminal()
        self._asked_for = {"--like"}
        self._missing: list[Question] = []
        self._wrong: list[str] = []

    def ask(self, question: Question) -> str:
        """The answer to a question.

        Returns:
            What is kept of it; empty where nothing need be said, or where `settle` is going to stop.
        """
        self._asked_for.add(question.option)
        said = self._given.get(question.option, "")
        if said:
            return self._checked(question, said)
        if self._terminal and not (question.can_wait and self._given):
            return self._asked(question)
        if not question.can_wait:
            self._missing.append(question)
        return question.default

    def refuse(self, told: str) -> None:
        """Note why the answers cannot stand together, for `settle` to tell."""
        self._wrong.append(told)

    @property
    def lacks(self) -> bool:
        """Whether `settle` is going to stop."""
        return bool(self._missing or self._wrong)

    def was_given(self, option: str) -> bool:
        """Whether an option was given."""
        return option in self._given

    def settle(self) -> None:
        """Stop with 2 where an option is missing or not taken; tells all of them."""
        if self._wrong:
            wrong_use("\n".join(self._wrong))
        if self._missing:
            told = "\n".join(f"  {each.as_option}  {each.text.splitlines()[0]}" for each in self._missing)
            wrong_use(f"there is no terminal to ask at; give as options:\n{told}")

    def finish(self) -> None:
        """Stop with 2 as `settle` does, and where an option was given that nothing asked for."""
        for option in self._given:
            if option not in self._asked_for:
                asked = sorted(each for each in self._asked_for if each.split()[0] == option.split()[0])
                told = f"; asked for: {', '.join(asked)}" if asked and " " in option else ""
                self._wrong.append(f"{option}: nothing asks for this here{told}")
        self.settle()

    def _checked(self, question: Question, said: str) -> str:
        try:
            return question.check(readable(said))
        except NotTaken as why:
            self._wrong.append(f"{question.option} {said!r}: {_why(why)}")
            return ""

    def _asked(self, question: Question) -> str:
        click.echo(f"\n{question.text}")
        for line in _hints(question):
            click.echo(f"  {line}")
        while True:
            try:
                said = readable(click.prompt(">", prompt_suffix=" ", default="", show_default=False))
                kept = question.default if question.can_wait and not said else _needed(question, said)
            except NotTaken as why:
                click.echo(f"  {_why(why)}", err=True)
            else:
                return kept


def _needed(question: Question, said: str) -> str:
    if not said:
        raise NotTaken("an answer is needed here")
    return question.check(said)


def _hints(question: Question) -> list[str]:
    """What would do: the words it takes, an example, what Enter means."""
    hints = []
    if question.accepted:
        hints.append(f"{question.lead}: {', '.join(question.accepted)}")
    if question.example and not question.default:
        hints.append(f"as: {question.example}")
    if question.default:
        hints.append(f"Enter takes: {question.default}")
    elif question.without:
        hints.append(f"Enter: {question.without}")
    return hints


def _why(why: NotTaken) -> str:
    return f"{why.what} (accepted: {', '.join(why.accepted)})" if why.accepted else why.what


def given() -> dict[str, str]:
    """The options of the command that runs, each with its value; empty for one that was not given."""
    context = click.get_current_context()
    found = {each.opts[0]: context.params.get(each.name or "") for each in context.command.params}
    return {option: value for option, value in found.items() if isinstance(value, str)}


def pairs(option: str, values: tuple[str, ...]) -> dict[str, str]:
    """What an option that is given several times says, by `--instrument current` and the like."""
    found = {}
    for each in values:
        key, equals, value = each.partition("=")
        if not equals or not key.strip() or not value.strip():
            wrong_use(
                f"{option} {each!r}: write a name, '=' and what stands for it, as {option} current=clamp-2"
            )
        found[f"{option} {key.strip()}"] = value.strip()
    return found


def stopping(ask: Callable[[], None]) -> None:
    """Ask, and say that nothing was written where the person stops it."""
    try:
        ask()
    except (click.Abort, KeyboardInterrupt):
        click.echo("\nStopped; nothing was written.", err=True)
        sys.exit(STOPPED)
