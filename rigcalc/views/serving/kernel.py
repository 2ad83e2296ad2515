"""The process that calculates for one visitor: IPython's kernel without its debugger, which nobody reaches through a page.

Without the debugger a visitor takes 98 MB instead of 111 (measured 25 November 2026). The notebooks ask for `python3`;
`jupyter/kernels/python3` stands before the ordinary one of that name while `rigcalc app` serves.
"""

import os
import sys
from pathlib import Path


def main() -> None:
    """Run until the server ends it. The folder it was started in is not searched for modules."""
    if sys.path[0] == "" or Path(sys.path[0]) == Path.cwd():
        del sys.path[0]
    sys.modules["debugpy"] = None  # type: ignore[assignment]  # an import of it fails, as where it isn't installed
    os.environ["RIGCALC_SERVED"] = "yes"  # the pages get plotly's script from the server, not from this process
    from ipykernel.kernelapp import launch_new_instance

    # What a page sends and the kernel can't read is no news in the window where rigcalc was started.
    launch_new_instance([*sys.argv[1:], "--IPKernelApp.log_level=50"])


if __name__ == "__main__":
    main()
