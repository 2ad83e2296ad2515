"""Serve the apps with Voila: on this computer alone unless told otherwise, fast, without one outside request."""

from __future__ import annotations

import os
import secrets
import signal
import sys
import threading
import webbrowser
from pathlib import Path
from typing import Any
from urllib.parse import quote

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.views.serving.loopback import is_loopback

JUPYTER = Path(__file__).parent / "jupyter"  # Voila finds our pages there, and the kernel that its notebooks run in
EXTENSIONS = ["@voila-dashboards/widgets-manager8", "@jupyter-widgets/jupyterlab-manager", "anywidget"]
MOST_MESSAGE = 4 * 1024 * 1024  # bytes in one message from a browser; a rig file has a few thousand
IDLE_SECONDS = 30 * 60
LONGEST_HOST = 253  # letters (RFC 1035)
# The browser itself refuses whatever would leave the server: a second lock behind the template without outside links.
POLICY = (
    "default-src 'self'; script-src 'self' 'unsafe-inline' 'unsafe-eval' blob:; style-src 'self' 'unsafe-inline'; "
    "img-src 'self' data: blob:; font-src 'self' data:; connect-src 'self' blob: data:; object-src 'none'; "
    "base-uri 'self'; form-action 'self'; frame-ancestors 'self'"
)


def apps_folder() -> Path:
    """Give the folder of the app notebooks: inside the installed package, or beside it in a checkout."""
    package = Path(__file__).parents[2]
    for folder in (package / "_data" / "apps", package.parent / "apps"):
        if any(folder.glob("*.ipynb")):
            return folder
    raise FileNotFoundError("no app was found beside the package; install it again: pip install 'rigcalc[app]'")


def chosen_token(host: str, token: str | None) -> str:
    """Give the token to ask for. None on loopback; beyond it a given one of 16 letters or more, or a new random one.

    Raises InputError for a token that is too short to keep anybody out, or that can't be typed into a page.
    """
    if token is None:
        return "" if is_loopback(host) else secrets.token_urlsafe(24)
    if len(token) < 16 or not token.isprintable():
        got = f"one of {len(token)} letters" if token.isprintable() else shown(token)
        raise InputError(
            [Fault("--token", got, "16 letters or more that can be typed", "rigcalc app --host … without --token")]
        )
    return token


def serve(
    host: str = "127.0.0.1",
    port: int = 8866,
    token: str | None = None,
    open_browser: bool = True,
    pool: int = 1,
    apps: Path | None = None,
    idle_seconds: int = IDLE_SECONDS,
    most: int | None = None,
) -> None:
    """Serve the apps until Ctrl+C. `pool` is how many calculations wait ready for each app's next visitor.

    `most` is how many pages may calculate at once; without it, what the memory and the cores of this computer carry.
    Raises InputError for an address, a port or a token that can't be used, FileNotFoundError when there is no app to serve.
    """
    stop = StopNoted()
    if threading.current_thread() is threading.main_thread():
        signal.signal(signal.SIGINT, stop)
    print("Starting rigcalc …", flush=True)  # noqa: T201
    if not host or not all(letter.isalnum() or letter in "._:%-" for letter in host) or len(host) > LONGEST_HOST:
        raise InputError([Fault("--host", shown(host), "an address of this computer", "--host 127.0.0.1")])
    folder = (apps or apps_folder()).resolve()
    wanted = chosen_token(host, token)
    before = os.environ.get("JUPYTER_PATH", "")
    os.environ["JUPYTER_PATH"] = os.pathsep.join(filter(None, [str(JUPYTER), before]))
    os.environ.setdefault("JUPYTER_PLATFORM_DIRS", "1")
    from rigcalc.views.serving.server import Server

    server = Server(config=settings(host, port, wanted, folder, pool, idle_seconds), config_file_paths=[], on_open=_announce)
    server.opens, server.most_visits, server.stop_noted = open_browser, most or 0, stop
    server.initialize([])
    server.start()


class StopNoted:
    """Takes Ctrl+C while the server starts, and remembers it.

    The interruption that Python raises is lost where it falls into a callback of the collector or of an import: the server
    would then start as if nothing had been asked. `noted` says so before it serves.
    """

    def __init__(self) -> None:
        self.noted = False

    def __call__(self, signum: int, frame: object) -> None:
        """Note it and interrupt what is under way."""
        self.noted = True
        raise KeyboardInterrupt


def settings(host: str, port: int, token: str, folder: Path, pool: int, idle_seconds: int) -> Any:
    """Give Voila's settings as a traitlets Config."""
    from traitlets.config import Config

    local = is_loopback(host)
    asked = Config()
    asked.Server = Config(
        {
            **{"ip": host, "port": port, "root_dir": str(folder), "open_browser": False, "log_level": "ERROR"},
            "token": token,
            "identity_provider_class": "rigcalc.views.serving.guard.Door",
            "tornado_settings": {
                "headers": {"Content-Security-Policy": POLICY, "Referrer-Policy": "same-origin"},
                "websocket_max_message_size": MOST_MESSAGE,
                # The page asks for signs of life itself. The server's own question closes every connection, answered or
                # not, where its time-out is no longer than its interval, and warns at start where it is longer.
                "ws_ping_interval": 0,
                "xsrf_cookie_kwargs": {"samesite": "Strict"},
                # On loopback a foreign host name is refused, so that a web site can't reach in by renaming itself.
                "allow_remote_access": not local,
                "local_hostnames": ["localhost"],
            },
        }
    )
    asked.VoilaConfiguration = Config(
        {
            **{"template": "rigcalc", "theme": "light", "strip_sources": True, "show_tracebacks": False},
            **{"allow_template_override": "NO", "allow_theme_override": "NO", "attempt_fix_notebook": True},
            **{"extension_allowlist": EXTENSIONS, "file_allowlist": [], "file_denylist": [".*"]},
            # Voila's manager with a pool, even an empty one, is the one that our pages ask for a calculation.
            **{"preheat_kernel": True, "default_pool_size": max(pool, 0)},
        }
    )
    # A lesson starts when it is opened: six that wait ready would take the memory of six pages.
    from rigcalc.views.serving.server import LESSONS

    asked.VoilaKernelManager = Config({"preheat_denylist": [f"/{LESSONS}/"]})
    # A calculation that crashed isn't started again: it would be an empty one, and its page would look alive. It is looked
    # after every second, so that its page can say so within two.
    asked.KernelRestarter = Config({"restart_limit": 0, "time_to_dead": 1.0})
    every = max(1, min(60, idle_seconds // 3))
    if os.name == "posix":
        asked.KernelManager = Config({"transport": "ipc"})
    # The server would drop, in silence, what it sends above a megabyte a second. A slider dragged fast took 0.4 of it on a slow
    # computer (25 November 2026). The page asks for the next answer only when it has the last, so that nothing piles up.
    asked.ZMQChannelsWebsocketConnection = Config({"limit_rate": False})
    asked.MappingKernelManager = Config({"cull_idle_timeout": idle_seconds, "cull_interval": every, "cull_connected": True})
    return asked


def link_to(address: str, token: str) -> str:
    """Give the link that opens the start page, whatever letters the token has."""
    return f"{address}?token={quote(token, safe='')}" if token else address


def code_of(link: str) -> list[str]:
    """Give a link as a code to scan, in lines of letters that a terminal shows: light squares as full blocks."""
    import segno

    rows = [list(row) for row in segno.make(link, error="l", micro=False).matrix_iter(border=2)]
    rows += [[0] * len(rows[0])] * (len(rows) % 2)
    halves = {(0, 0): "█", (0, 1): "▀", (1, 0): "▄", (1, 1): " "}  # two squares in one letter: light, or as the background
    pairs = zip(rows[::2], rows[1::2], strict=True)
    return ["".join(halves[upper, lower] for upper, lower in zip(*pair, strict=True)) for pair in pairs]


def _announce(address: str, token: str, opens: bool, taken: int | None) -> None:
    if taken is not None:
        print(f"Port {taken} is taken, perhaps by another rigcalc, so this one has another.", flush=True)  # noqa: T201
    link = link_to(address, token)
    print(f"rigcalc is open at {link}", flush=True)  # noqa: T201
    if token:
        print(  # noqa: T201
            "Whoever can reach this computer and has the token can use it, and what they type travels unencrypted.\n"
            "Share it only on a network that you trust; without --host it stays on this computer alone.",
            flush=True,
        )
        code = code_of(link)
        if sys.stdout.isatty():
            code = [f"\x1b[97;40m{line}\x1b[0m" for line in code]  # white on black on any terminal
        print("A phone in the same network opens it by this code:", *code, sep="\n", flush=True)  # noqa: T201
    print("To stop it, press Ctrl+C here.", flush=True)  # noqa: T201
    if opens:
        webbrowser.open(link)


if __name__ == "__main__":
    serve(port=int(sys.argv[1]) if len(sys.argv) > 1 else 8866, open_browser=False)
