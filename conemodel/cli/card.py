"""``card``: the job cards in the record of this machine: listed, shown, taken out and in, backed up, deleted."""

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from conemodel.base.errors import InputProblems, Problem
from conemodel.cli.reporting import Reported, say, write_sheet
from conemodel.parts.foreign_file import read_bytes

if TYPE_CHECKING:
    from conemodel.record.database import Database
    from conemodel.tasks.job_card.card import Card


@click.group()
@click.option("--record", default=None, help="file of the record; this user's own where not given")
@click.pass_context
def card(context: click.Context, record: str | None) -> None:
    """List, show and keep job cards. Everything stays on this machine: nothing is sent anywhere."""
    from conemodel.record.database import Database

    context.obj = Database(Path(record) if record else None)


@card.command("list")
@click.argument("words", nargs=-1)
@click.option("--due", is_flag=True, help="only wheels to be looked at again, the longest overdue first")
@click.option("--json", "as_json", is_flag=True, help="print a JSON list")
@click.pass_obj
def list_cards(database: "Database", words: tuple[str, ...], due: bool, as_json: bool) -> None:
    """List the job cards, the latest first; with WORDS those on which each of them stands."""
    from conemodel.record.cards import all_cards
    from conemodel.show.job_card.text import list_json, list_text, rechecks_text
    from conemodel.tasks.job_card.memory import find_cards, list_rechecks

    with Reported():
        cards = all_cards(database)
        found = find_cards(cards, " ".join(words))
        wanted = {card.id for card in found}
        rechecks = [each for each in list_rechecks(cards, date.today()) if each.card.id in wanted]
        if as_json:
            say(list_json([recheck.card for recheck in rechecks] if due else found))
        else:
            say(rechecks_text(rechecks) if due else list_text(found))


@card.command()
@click.argument("which")
@click.option("--json", "as_json", is_flag=True, help="print one JSON object")
@click.pass_obj
def show(database: "Database", which: str, as_json: bool) -> None:
    """Print the job card WHICH: an id, the beginning of one, or a tag number, of which the latest card is taken."""
    from conemodel.show.job_card.text import card_json, card_text

    with Reported():
        found = _card_of(which, database)
        say(card_json(found) if as_json else card_text(found))


@card.command("pdf")
@click.argument("which")
@click.argument("file")
@click.pass_obj
def print_pdf(database: "Database", which: str, file: str) -> None:
    """Write the job card WHICH to FILE as PDF: a sheet of A5 with halves for workshop and customer, and a tag."""
    from conemodel.show.job_card.sheet import card_figure

    with Reported():
        found = _card_of(which, database)
        write_sheet("FILE", Path(file), lambda: card_figure(found))
        say(f"{file}: written")


@card.command("export")
@click.argument("file")
@click.option(
    "--card", "which", default=None, help="only this one: an id, the beginning of one, or a tag number"
)
@click.pass_obj
def export_file(database: "Database", file: str, which: str | None) -> None:
    """Write all job cards with their history to FILE as JSON; a file that is there already is left alone."""
    from conemodel.record.card_exchange import export_cards
    from conemodel.record.card_file import FILE_NOTE

    with Reported():
        text = export_cards(database, _card_of(which, database).id if which else None)
        try:
            with open(file, "x", encoding="ascii") as stream:
                stream.write(text)
        except OSError as error:
            problem = Problem(where=file, value="", limit="cannot be written", remedy=error.strerror or "")
            raise InputProblems([problem]) from None
        say(f"{file}: written. {FILE_NOTE}")


@card.command("import")
@click.argument("file")
@click.pass_obj
def import_file(database: "Database", file: str) -> None:
    """Keep the job cards in FILE, all or none; answers that are in the record already are left as they are."""
    from conemodel.record.card_exchange import import_cards
    from conemodel.record.card_file import LARGEST

    with Reported():
        came = import_cards(read_bytes(Path(file), most=LARGEST), database, name=Path(file).name)
        say(f"cards added: {came.added}, continued: {came.continued}, with nothing new: {came.unchanged}")


@card.command()
@click.option("--to", "folder", default=None, help="folder to write it to; beside the record where not given")
@click.pass_obj
def backup(database: "Database", folder: str | None) -> None:
    """Write a copy of the whole record, practice and all, named with the date; others may go on working."""
    from conemodel.record.backups import back_up
    from conemodel.record.card_file import FILE_NOTE

    with Reported():
        say(f"{back_up(database, Path(folder) if folder else None)}: written. {FILE_NOTE}")


@card.command("restore")
@click.argument("file")
@click.pass_obj
def restore_file(database: "Database", file: str) -> None:
    """Put the backup FILE in the place of the whole record; what stood there is kept aside."""
    from conemodel.record.backups import restore

    with Reported():
        aside = restore(Path(file), database)
        say(f"{database.path}: is now what {file} holds")
        say(f"{aside}: what stood there before" if aside else "There was no record before.")


@card.command("delete-customer")
@click.argument("name")
@click.option("--yes", is_flag=True, help="do not ask first")
@click.pass_obj
def delete(database: "Database", name: str, yes: bool) -> None:
    """Delete every job card of the customer NAME, history too, and name the copies that still hold it."""
    from conemodel.record.customers import CUSTOMER, count_customer, delete_customer

    with Reported():
        cards, former = count_customer(name, database)
    if (cards or former) and not yes:
        others = f", and the name from {former} of others" if former else ""
        click.confirm(f"Delete {cards} job card(s) of this customer{others} for good?", abort=True)
    with Reported():
        say("\n".join(delete_customer(name, database).lines))
        if not cards and not former:
            raise InputProblems([Problem(where=CUSTOMER, value=name[:60], limit="no such customer")])


def _card_of(which: str, database: "Database") -> "Card":
    """Return the one card whose id begins so, or the latest of a tag number.

    Raises:
        InputProblems: more than one id begins so.
        NoCard: there is none.
    """
    from conemodel.record.cards import NoCard, all_cards
    from conemodel.tasks.job_card.same_wheel import plain

    cards, tag = all_cards(database), plain(which)
    begin = [found for found in cards if found.id.startswith(which.lower())]
    tagged = [found for found in cards if tag and plain(found.text("tag")) == tag]
    if tagged or len(begin) == 1:
        return (tagged or begin)[0]
    if begin:
        limit = f"is how {len(begin)} ids begin"
        raise InputProblems([Problem(where="card", value=which, limit=limit, remedy="give more of it")])
    raise NoCard(f"No job card has the id or the tag number “{which[:60]}”.")
