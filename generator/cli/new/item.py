"""`provebook new item`: a product, and its first pieces."""

from __future__ import annotations

import click

from generator.cli.bench import folder_of_bench
from generator.cli.new.asking import Asker, Question, given, stopping
from generator.cli.new.writing import day, name_of, write
from generator.intake.taking import Check, either, number, words

GOT = ("bought", "sent", "lent", "from a viewer")
UNKNOWN = "unknown"


@click.command(short_help="Begin an item: a product and its pieces.")
@click.option("--maker", help="Who made it, as printed on it.")
@click.option("--model", help="The model, as printed on it.")
@click.option("--what", help="What it is: in-line fuse holder.")
@click.option("--pieces", help="How many pieces there are.")
@click.option("--got", help="How you had them: bought, sent, lent or from a viewer.")
@click.option("--from", help="From whom; a kind of seller will do.")
@click.option("--date", help="The day you had them: 2026-03-08, or today.")
@click.option("--pack", help="How many pieces were in the pack that was paid; 1 where left out.")
@click.option("--paid", help="What one pack cost: 4.80 EUR, or unknown.")
@click.option("--marks", help="Codes and marks on the pieces.")
@click.option("--condition", help="Their condition when they came.")
@click.option("--chosen", help="How they were chosen: at random of 6.")
@click.option("--id", help="Its id; made from maker and model where left out.")
def item(**_: str | None) -> None:
    """Begin an item: asks for the product and its pieces, or takes them as options."""
    stopping(_item)


def _item() -> None:
    from generator.intake.answers import field, new_name  # noqa: PLC0415
    from generator.intake.names import free, id_from  # noqa: PLC0415
    from generator.intake.new_item import MOST_PIECES, NewItem, new_item  # noqa: PLC0415
    from generator.records.schema.item import Item  # noqa: PLC0415

    folder, asker = folder_of_bench(), Asker(given())
    maker = asker.ask(
        Question("--maker", "Who made it, as printed on it?", "Okvarn", check=field(Item, "maker"))
    )
    model = asker.ask(
        Question("--model", "Which model, as printed on it?", "IH30", check=field(Item, "model"))
    )
    what = Question(
        "--what", "What is it?", "in-line fuse holder", without="left out", check=field(Item, "what")
    )
    said = asker.ask(what)
    text = "How many pieces of it have you got?"
    pieces = asker.ask(Question("--pieces", text, "4", check=number(MOST_PIECES)))
    piece = _piece(asker)
    made = free(folder / "reports/items", id_from(maker, model), ".yml")
    name = name_of(asker, made, new_name(folder, lambda each: f"items/{each}.yml"))
    asker.finish()
    begun = new_item(folder, NewItem(name, maker, model, said, int(pieces), **piece))
    after = ("provebook new item        for each product that you compare", "provebook new report")
    write(begun, after)


def _piece(asker: Asker) -> dict[str, str]:
    """How the pieces were had: asked once, for all of them."""
    from generator.intake.answers import field  # noqa: PLC0415
    from generator.records.schema.item import Item  # noqa: PLC0415

    def of(key: str) -> Check:
        return field(Item, "specimens", "A", key)

    got = asker.ask(Question("--got", "How did you get it?", accepted=GOT, check=words(*GOT)))
    who, example = _WHO.get(got, ("From whom?", "chandler"))
    from_ = asker.ask(Question("--from", who, example, check=of("from")))
    date = asker.ask(
        Question("--date", "Which day did you get it?", "2026-03-08, or: today", check=day(of("date")))
    )
    pack, paid = "1", ""
    if got == "bought" or asker.was_given("--paid"):
        pack = asker.ask(
            Question("--pack", "How many pieces were in one pack?", "5", default="1", check=of("pack"))
        )
        price = "What did one piece cost?" if pack == "1" else "What did one pack cost?"
        check = either(UNKNOWN, of("paid"))
        paid = asker.ask(Question("--paid", price, f"4.80 EUR, or: {UNKNOWN}", check=check))
    marks = Question("--marks", "Which codes or marks are on it?", "2611", without="none", check=of("marks"))
    condition = Question(
        "--condition", "In which condition did it come?", "new", without="left out", check=of("condition")
    )
    chosen = "How was it chosen, and by whom?"
    return {
        "got": got,
        "from_": from_,
        "date": date,
        "pack": pack,
        "paid": "" if paid == UNKNOWN else paid,
        "marks": asker.ask(marks),
        "condition": asker.ask(condition),
        "chosen": asker.ask(
            Question("--chosen", chosen, "at random of the 6 in the shop", check=of("chosen"))
        ),
    }


_WHO = {
    "bought": ("Where did you buy it? A kind of shop will do.", "chandler"),
    "sent": ("Who sent it?", "the maker"),
    "lent": ("Who lent it?", "the maker"),
    "from a viewer": ("From which viewer? 'a viewer' will do.", "a viewer"),
}
