"""What went wrong, in one or two plain lines on stderr; or, for programs, as JSON."""

from __future__ import annotations

import json
import sys

from axlewright.yard import Fault, Faults, Moved

UNUSABLE = 2


def faults_of(bad: Exception) -> tuple[Fault, ...]:
    """The mistakes that an error stands for; none if it is a bug of ours."""
    from axlewright.quantities.units import NotRead

    if isinstance(bad, Faults):
        return bad.faults
    if isinstance(bad, NotRead):
        return (Fault(bad.text, str(bad)),)
    if isinstance(bad, Moved):
        return (Fault("yard", str(bad)),)
    if isinstance(bad, OSError):
        where = str(bad.filename or "")
        return (Fault(where or "file", f"{bad.strerror or bad}.", "Nothing was written."),)
    return ()


def say(bad: Exception, as_json: bool) -> int:
    """Say it and give the exit code. A bug is shown as one."""
    faults = faults_of(bad)
    if not faults:
        raise bad
    if as_json:
        print(
            json.dumps(
                {"faults": [{"where": f.where, "what": f.what, "right": f.right} for f in faults]}, ensure_ascii=False
            )
        )
    for fault in faults:
        print(fault, file=sys.stderr)
    return UNUSABLE
