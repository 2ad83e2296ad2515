"""A running `rigcalc app` for tests."""

import socket
import subprocess
import sys
import time
from pathlib import Path

HERE = Path(__file__).parent


class Served:
    """A running `rigcalc app` on a free port."""

    def __init__(self, folder, log, pool=1, **more):
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            self.port = free.getsockname()[1]
        self.url = f"http://localhost:{self.port}/"
        apps = f"Path({str(folder)!r})" if folder else "None"
        call = f"serve(port={self.port}, open_browser=False, pool={pool}, apps={apps}, **{more!r})"
        code = f"from pathlib import Path; from rigcalc.views.serving.serve import serve; {call}"
        self.log = log
        with log.open("w") as out:
            self.process = subprocess.Popen([sys.executable, "-c", code], stdout=out, stderr=subprocess.STDOUT)
        end = time.monotonic() + 150
        while "is open at" not in log.read_text():
            if self.process.poll() is not None or time.monotonic() > end:
                self.stop()
                raise RuntimeError(log.read_text())
            time.sleep(0.05)

    def stop(self):
        if self.process.poll() is None:
            self.process.terminate()
            self.process.wait(20)
