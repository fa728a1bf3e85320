"""The one way in: sets up .venv beside this file, then runs a command in it.

    python run.py demo      the main job on the demo yard
    python run.py test      the whole test suite
    python run.py check     lint, types, layers
    python run.py COMMAND   any other command (python run.py --help lists them)

Needs Python 3.11 or newer and nothing else. Whatever Python somebody has must be able to read this file, so as to say that
it is too old: the work is done by start.py.
"""

import sys

OLDEST = (3, 11)


def begin():  # type: () -> int
    if sys.version_info < OLDEST:
        sys.stderr.write(
            "run.py: this needs Python 3.11 or newer; this one is " + sys.version.split()[0] + ".\n"
            "  Get one from python.org, or name the one you have: python3.11 run.py demo\n"
        )
        return 2
    from start import main

    return main(sys.argv[1:])


if __name__ == "__main__":
    try:
        sys.exit(begin())
    except KeyboardInterrupt:
        sys.exit(130)
