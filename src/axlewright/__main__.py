"""python -m axlewright: the command line."""

from axlewright.cli import main

raise SystemExit(main())
