"""Settings of the server, without starting one."""

from importlib.resources import files
from urllib.parse import parse_qsl, urlsplit

import pytest

from rigcalc.core.errors import InputError
from rigcalc.views.serving.serve import POLICY, apps_folder, chosen_token, is_loopback, link_to, settings


@pytest.mark.parametrize(
    ("host", "local"),
    [("127.0.0.1", True), ("::1", True), ("localhost", True), ("127.8.8.8", True), ("0.0.0.0", False), ("192.168.1.5", False),
     ("::", False), ("farm.example", False), ("", False)],
)  # fmt: skip
def test_what_counts_as_this_computer_alone(host, local):
    assert is_loopback(host) is local


def test_beyond_this_computer_there_is_always_a_token():
    assert chosen_token("127.0.0.1", None) == ""
    made = chosen_token("0.0.0.0", None)
    assert len(made) >= 32
    assert chosen_token("0.0.0.0", None) != made
    assert chosen_token("127.0.0.1", "a" * 16) == "a" * 16
    for bad in ("", "short", "a" * 15, "a" * 16 + "\n", "\udcff" * 20):
        with pytest.raises(InputError, match="16"):
            chosen_token("0.0.0.0", bad)


@pytest.mark.parametrize(
    "token", ["a&b=c#d?e f+g%h/i", "täglich frisches Brot", "'\"<script>;--" + "x" * 20, " blanks at both ends "]
)
def test_a_link_works_with_any_token(token):
    link = link_to("http://localhost:8866/", token)
    assert dict(parse_qsl(urlsplit(link).query)) == {"token": token}
    assert link.isascii()
    assert " " not in link


def test_settings_hide_sources_and_keep_the_template(tmp_path):
    asked = settings("127.0.0.1", 8866, "", tmp_path, pool=1, idle_seconds=1800)
    voila = asked.VoilaConfiguration
    assert voila.strip_sources
    assert not voila.show_tracebacks
    assert (voila.allow_template_override, voila.allow_theme_override) == ("NO", "NO")
    assert voila.file_allowlist == []
    assert asked.MappingKernelManager.cull_idle_timeout == 1800
    assert asked.Server.tornado_settings["allow_remote_access"] is False
    wide = settings("0.0.0.0", 8866, "t" * 20, tmp_path, pool=0, idle_seconds=1800)
    assert wide.Server.tornado_settings["allow_remote_access"] is True
    assert wide.VoilaConfiguration.default_pool_size == 0
    assert asked.KernelRestarter.restart_limit == 0  # an empty calculation in place of a crashed one would look alive


def test_the_policy_lets_nothing_out():
    assert "http:" not in POLICY
    assert "https:" not in POLICY
    assert "*" not in POLICY


def test_templates_and_scripts_name_no_outside_address():
    shipped = files("rigcalc.views")
    for folder in ("serving/jupyter/voila/templates/rigcalc", "../widgets/browser", "../widgets/look"):
        for path in shipped.joinpath(folder).iterdir():
            text = path.read_text(encoding="utf-8")
            assert "http://" not in text, path
            assert "https://" not in text, path


def test_every_app_says_which_question_it_answers():
    pytest.importorskip("voila")
    from rigcalc.views.serving.server import apps_in

    apps = apps_in(apps_folder())
    from rigcalc.views.pages import PAGES

    own = [app for app in apps if app["group"] == "app"]
    assert [(app["name"], app["page"]) for app in own] == [("rig", page) for page in PAGES]
    assert [app["address"] for app in apps[len(own) :]] == [
        f"app/lesson-{lesson}" for lesson in ("draft", "power", "slip", "weight", "capacity", "soil")
    ]
    assert all((apps_folder() / app["file"]).is_file() for app in apps)
    assert all(app["question"] and app["text"] for app in apps)
