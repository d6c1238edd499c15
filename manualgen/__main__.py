"""``python -m manualgen`` is the command ``manualgen``."""

import sys

from manualgen.cli import main

sys.exit(main())
