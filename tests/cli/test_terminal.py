"""The terminal as it is out there: cut off, full, closed, odd arguments and names; codes that hold, files that are whole."""

import json
import os
import socket
import subprocess
import sys
import tomllib

import pytest
from known_rigs import known_text

from rigcalc.cli.writing import json_text, write_beside

GOOD = known_text()
RUN = [sys.executable, "-m", "rigcalc"]
WORKS, DOES_NOT = ["size"], ["size", "--depth", "40 in"]


def ran(*words, before=(), env=None, **more):
    more = {"capture_output": True, "timeout": 120, **more}
    return subprocess.run([*RUN, *words], check=False, env={**os.environ, **(env or {})}, **more)


def in_shell(line):
    done = subprocess.run(["bash", "-c", line], capture_output=True, check=False, timeout=120)
    assert b"Traceback" not in done.stdout + done.stderr
    assert b"Exception ignored" not in done.stderr
    return done


@pytest.mark.parametrize(("words", "code"), [(WORKS, 0), (DOES_NOT, 1), ([*WORKS, "--json"], 0), ([*WORKS, "--working"], 0)])
def test_a_reader_who_has_enough_doesn_t_change_the_answer(words, code):
    line = " ".join(f"'{word}'" for word in [*RUN, *words])
    done = in_shell(f"{line} | head -1; exit ${{PIPESTATUS[0]}}")
    assert done.returncode == code
    assert done.stdout.strip()
    assert done.stderr == b""
    done = in_shell(f"{line} | true; exit ${{PIPESTATUS[0]}}")
    assert done.returncode == code


@pytest.mark.parametrize("words", [WORKS, DOES_NOT, ["new"], ["size", "--json"], ["--help"]])
def test_a_full_disk_is_no_verdict(words):
    done = in_shell(" ".join(f"'{word}'" for word in [*RUN, *words]) + " > /dev/full")
    assert done.returncode == 2
    assert b"could not be written: No space left" in done.stderr


@pytest.mark.parametrize("where", ["2>/dev/full", "2>&-", ">&-", "<&-", ">&- 2>&-", ">/dev/full 2>/dev/full"])
@pytest.mark.parametrize(("words", "code"), [(DOES_NOT, 1), (["size", "no such file"], 2)])
def test_where_nobody_hears_the_code_holds(words, code, where):
    done = in_shell(" ".join(f"'{word}'" for word in [*RUN, *words]) + " " + where)
    assert done.returncode == (2 if ">/dev/full 2" in where else code)


@pytest.mark.parametrize("command", [("size",), ("ballast",), ("check",), ("sheet", "--out", "never.pdf"), ("new",)])
def test_a_variable_that_is_not_set_is_not_the_demo(command, tmp_path):
    done = ran(*command, "", cwd=tmp_path)
    assert done.returncode == 2
    assert done.stdout == b""
    assert b"got ''" in done.stderr
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    "words",
    [("size", b"\xff\xfe"), ("size", "--depth", b"12 in\xff"), ("find", b"\xff"), (b"\xff",),
     ("size", b"--\xff"), ("check", b"\xe9"),
     ("sheet", "--out", b"\xff"), ("sliptest", "--loaded", b"\xff", "--unloaded", "1"), ("size", "--units", b"\xff"),
     ("app", "--host", b"\xff"), ("app", "--token", b"\xff" * 20), ("new", "a\x1b[31m/b")],
)  # fmt: skip
def test_arguments_that_are_no_text_end_in_words(words, tmp_path):
    done = ran(*words, cwd=tmp_path, env={"LC_ALL": "C.UTF-8"})
    assert done.returncode == 2
    assert b"Traceback" not in done.stderr
    assert b"\x1b" not in done.stderr
    assert done.stderr.strip()


def test_a_file_whose_name_is_no_text_is_read_all_the_same(tmp_path):
    (tmp_path / os.fsdecode(b"caf\xe9.toml")).write_text(GOOD, encoding="utf-8")
    assert ran("check", b"caf\xe9.toml", cwd=tmp_path).returncode == 0


def test_a_sheet_for_somebody_whose_name_is_no_text(tmp_path):
    done = ran("sheet", "--out", "a.html", "--who", b"J\xfcrgen", cwd=tmp_path)
    assert done.returncode == 2
    assert b"command line: got 'J" in done.stderr
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("host", ["", "999.1.1.1", "a b", "x" * 300, "\u202e", "192.0.2.1"])
def test_an_odd_host_ends_in_words(host):
    pytest.importorskip("voila", reason="missing: voila")
    done = ran("app", "--no-browser", "--host", host)
    assert done.returncode == 2, done.stderr
    assert b"--host: got" in done.stderr
    assert b"Traceback" not in done.stderr


def test_a_port_that_may_not_be_opened(tmp_path):
    pytest.importorskip("voila", reason="missing: voila")
    from rigcalc.core.errors import InputError
    from rigcalc.views.serving import server

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(server, "bind_sockets", lambda *_: (_ for _ in ()).throw(PermissionError(13, "no")))
        with pytest.raises(InputError, match="--port"):
            server._open_port("127.0.0.1", 80)


# tornado leaves the socket that it could not bind to the garbage collector
@pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning")
def test_a_busy_port_gives_the_next_one():
    pytest.importorskip("voila", reason="missing: voila")
    from rigcalc.views.serving.server import _open_port

    with socket.socket() as busy:
        busy.bind(("127.0.0.1", 0))
        busy.listen()
        port = busy.getsockname()[1]
        if port > 65500:
            pytest.skip("no room above the port that this system gave")
        (found, *_) = _open_port("127.0.0.1", port)
        with found:
            assert found.getsockname()[1] != port


@pytest.mark.parametrize("columns", ["0", "1", "-5", "x", "99999"])
def test_an_odd_width_shows_the_whole_answer(columns):
    done = ran("size", env={"COLUMNS": columns})
    assert done.returncode == 0
    assert b"Limits, the fullest first" in done.stdout


@pytest.mark.parametrize("words", [("size",), ("ballast",), ("find", "slip"), ("check", "two_track"), ("--help",)])
def test_python_without_docstrings_and_asserts(words):
    plain = ran(*words)
    done = subprocess.run([sys.executable, "-OO", "-m", "rigcalc", *words], capture_output=True, check=False)
    assert done.returncode == plain.returncode
    assert done.stderr == b""
    if words[0] == "size":
        assert done.stdout == plain.stdout


ODD = "a\x1b[31m\x9b2J\x07\u202e"


def toml_of(data, before=""):
    """Write nested data as TOML, letter by letter escaped."""
    plain = {key: value for key, value in data.items() if not isinstance(value, dict) and not _tables(value)}
    out = [f"{key} = {json.dumps(value)}" for key, value in plain.items()]
    for key, value in data.items():
        if isinstance(value, dict):
            out += [f"[{before}{key}]", toml_of(value, f"{before}{key}.")]
        elif _tables(value):
            for entry in value:
                out += [f"[[{before}{key}]]", toml_of(entry, f"{before}{key}.")]
    return "\n".join(out)


def _tables(value):
    return isinstance(value, list) and bool(value) and isinstance(value[0], dict)


def odd_rig(folder):
    """Write a rig whose names hold what a terminal obeys."""
    data = tomllib.loads(GOOD)
    data["farm"] = data["note"] = ODD
    for part in (data["tractor"], data["implement"], *data.get("ballast", [])):
        part["name"] = f"{ODD} {part.get('name', '')}"
    data["gears"]["names"] = [f"{ODD}{place}" for place in range(len(data["gears"]["speeds"]))]
    path = folder / "odd.toml"
    # JSON's texts, numbers and flags are TOML's too
    path.write_text(toml_of(data), encoding="utf-8")
    return path


@pytest.mark.parametrize(
    "words", [("size",), ("size", "--json"), ("ballast",), ("ballast", "--json"), ("size", "--working"), ("check",)]
)
def test_names_from_a_file_are_never_obeyed(words, tmp_path):
    done = ran(words[0], str(odd_rig(tmp_path)), *words[1:])
    for raw in ("\x1b", "\x9b", "\x07", "\u202e"):
        assert raw not in done.stdout.decode()
        assert raw not in done.stderr.decode()
    assert done.returncode in (0, 1), done.stderr
    if "--json" in words:
        assert "\\u001b" in done.stdout.decode()
        assert json.loads(done.stdout)


def test_json_keeps_every_letter():
    data = {"a": ODD + "ü😀\ud800", "b": [1.5, None]}
    text = json_text(data)
    assert json.loads(text) == data
    assert text.replace("\n", "").isprintable()
    assert "ü" in text


# files


def limited(*words, cwd, most=4096):
    """Run with files of at most so many bytes, as on a full disk."""
    code = (
        "import resource, signal, sys; signal.signal(signal.SIGXFSZ, signal.SIG_IGN); "
        f"resource.setrlimit(resource.RLIMIT_FSIZE, ({most}, {most})); sys.dont_write_bytecode = True; "
        f"sys.argv = ['rigcalc', *{list(words)!r}]; from rigcalc.cli.main import main; main()"
    )
    return subprocess.run([sys.executable, "-c", code], cwd=cwd, capture_output=True, check=False, timeout=120)


def test_a_full_disk_keeps_the_old_sheet_and_leaves_no_stump(tmp_path):
    old = tmp_path / "a.html"
    old.write_text("the old one")
    done = limited("sheet", "--out", "a.html", "--force", cwd=tmp_path)
    assert done.returncode == 2
    assert b"can be written to" in done.stderr
    assert old.read_text() == "the old one"
    assert list(tmp_path.iterdir()) == [old]


def test_a_full_disk_leaves_no_stump_of_a_new_rig(tmp_path):
    done = limited("new", "a.toml", cwd=tmp_path, most=100)
    assert done.returncode == 2
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("force", [(), ("--force",)])
def test_a_pipe_is_no_place_for_a_sheet(force, tmp_path):
    os.mkfifo(tmp_path / "a.pdf")
    done = ran("sheet", "--out", "a.pdf", *force, cwd=tmp_path)
    assert done.returncode == 2
    assert b"not a pipe" in done.stderr


def test_a_file_is_written_whole_with_the_usual_rights(tmp_path):
    file = tmp_path / "a"
    write_beside(file, b"1", over=False)
    plain = tmp_path / "b"
    plain.write_bytes(b"1")
    assert file.stat().st_mode == plain.stat().st_mode
    with pytest.raises(FileExistsError):
        write_beside(file, b"2", over=False)
    file.chmod(0o640)
    (tmp_path / "link").symlink_to(file)
    write_beside(tmp_path / "link", b"3", over=True)
    assert file.read_bytes() == b"3"
    assert file.stat().st_mode & 0o777 == 0o640
    assert (tmp_path / "link").is_symlink()
    assert len(list(tmp_path.iterdir())) == 3


def test_somebody_else_was_first(tmp_path, monkeypatch):
    file = tmp_path / "a"

    def late(_name, target):
        file.write_bytes(b"theirs")
        raise FileExistsError(17, "there", str(target))

    monkeypatch.setattr(os, "link", late)
    with pytest.raises(FileExistsError):
        write_beside(file, b"ours", over=False)
    assert file.read_bytes() == b"theirs"
    assert list(tmp_path.iterdir()) == [file]
