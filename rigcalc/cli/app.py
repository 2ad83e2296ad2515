"""`rigcalc app`: the pages, served to a browser."""

from __future__ import annotations

import click

from rigcalc.core.errors import Fault, InputError


@click.command()
@click.option(
    "--host", default="127.0.0.1", show_default=True, help="Address to listen on; beyond this computer a token is asked for."
)
@click.option("--port", default=8866, show_default=True, type=click.IntRange(1, 65535))
@click.option("--token", help="Token to ask for, 16 letters or more (default: made anew beyond this computer, none on it).")
@click.option(
    "--at-once",
    type=click.IntRange(1, 1000),
    help="Pages that may calculate at once; others wait (default: by memory and cores).",
)
@click.option("--browser/--no-browser", default=True, help="Open the browser.")
def app(host: str, port: int, token: str | None, at_once: int | None, browser: bool) -> None:
    """Serve the apps to a browser until Ctrl+C: sliders, pictures and the setup sheet. Needs no network."""
    try:
        from rigcalc.views.serving.serve import serve

        serve(host=host, port=port, token=token, open_browser=browser, most=at_once)
    except ModuleNotFoundError as error:
        raise InputError(
            [Fault("rigcalc app", f"no {error.name}", "the app's libraries", "pip install 'rigcalc[app]'")]
        ) from None
