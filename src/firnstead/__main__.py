"""``python -m firnstead``: the same as the command ``firnstead``."""

import sys
import traceback

from firnstead.cli import main

FAULT = 3  # exit code for a fault of Firnstead itself, so that nobody takes it for "something fails" (1)

if __name__ == "__main__":
    try:
        sys.exit(main())
    except Exception:  # noqa: BLE001 - the last net: whatever it is, say that it is ours
        traceback.print_exc()
        print(
            "This is a fault of Firnstead, not of your input: please report it with the lines above.", file=sys.stderr
        )
        sys.exit(FAULT)
