"""Which words of the log may be read: those for what a hand felt, only once the hand has said what it was.

What words tell while one feels is read instead of felt.
"""

from conemodel.tasks.practice.session import Bench, Event

TO_SAY = "Felt. Say what it was; then come the words."
AT_THE_END = "Felt. The words for it come with the result."
"""What stands in place of words that are not said yet."""

WORDS_ASKED, WORDS_NO_MORE = "asked for words for what is felt", "asked for no more words"
"""How it stands in the log that words were asked for, and that they no longer are."""


def may_be_read(bench: Bench, number: int) -> bool:
    """Return whether the words of a line of the log may be read now."""
    event = bench.log[number]
    if bench.words or bench.finished or not event.felt:
        return True
    if bench.exercise.assessed:
        return False
    judged = any(later.hub == event.hub and later.kind == "Judge" for later in bench.log[number + 1 :])
    return bench.hubs[event.hub].done is not None or (judged and event.kind != "TurnCone")


def read(bench: Bench, number: int) -> str:
    """Return what stands on a line of the log for the trainee: what was told, or that it is still to be said."""
    if may_be_read(bench, number):
        return bench.log[number].told
    touch = bench.log[number].kind == "TurnCone"
    return AT_THE_END if bench.exercise.assessed or touch else TO_SAY


def read_in_words(bench: Bench) -> frozenset[int]:
    """Return the numbers of the hubs of which something that was felt stood in words before the last word on them."""
    words, felt, found = False, set[int](), set[int]()
    for event in bench.log:
        if event.kind == "InWords":
            words = event.action == WORDS_ASKED
        if event.felt:
            felt.add(event.hub)
        if words and event.hub in felt and event.after is not None and event.after.done is None:
            found.add(event.hub)
    return frozenset(found)


def unsaid(bench: Bench) -> tuple[Event, ...]:
    """Return what was felt of the hub on the bench since it was last said what it was, the last of each way."""
    last: dict[str, Event] = {}
    for event in bench.log:
        if event.hub == bench.current and event.kind in ("Judge", "Take"):
            last = {} if event.kind == "Judge" else last
        elif event.hub == bench.current and event.felt and event.kind != "TurnCone":
            last[event.kind] = event
    return tuple(last.values())
