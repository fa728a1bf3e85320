"""A machine came into the yard."""

from __future__ import annotations

from axlewright.desk.now import Now, checked, may
from axlewright.yard import Change, Fault, Faults, Machine, Yard


@may("owner")
def add_machine(yard: Yard, machine: Machine, now: Now) -> Change:
    """Keep a new machine. One that is there already is not written over.

    Raises:
        Faults: another machine has this id
    """
    there = next((m for m in yard.machines if m.id == machine.id), None)
    machine = machine.model_copy(update={"who": now.who, "at": now.at})
    if there and there.body() != machine.body():
        raise Faults(Fault("id", f"There is a machine {machine.id} already.", "Give this one another id."))
    return checked(yard, (machine,), now)
