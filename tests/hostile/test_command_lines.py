"""Command lines that nobody of good will types: each ends in an answer or in words, with an exit code of its own.

`RIGCALC_HOSTILE=10000 uv run pytest tests/hostile` tries that many; the ordinary run 150.
"""

import os
import random
import re
import sys
import time

import pytest

from rigcalc.cli.main import main
from rigcalc.models import DEMO_RIGS

MANY = int(os.environ.get("RIGCALC_HOSTILE", "0")) or 150
LONGEST = 5.0  # seconds of the processor for one command
TYPED = (
    "", " ", "-", "--", "0", "-1", "1e400", "1e-300 in", "nan", "inf in", "14", "14 in", "14 kg", "5 mph", "0,5 m", "१३ in",
    "1_3 in", "3.5", "12 %", "110 %", "-3 %", "us", "si", "US", "full", "light", "heavy", "front=x.csv", "rear=/dev/null",
    "\x1b[2J", "\udcff", "🚜", "a" * 5000, "../../etc/passwd", "/", ".", "$(id)", "{{7*7}}", "%s%n", "clay", "12000 lb",
    "8 to 13", "60 hp", "no-such-file.toml",
)  # fmt: skip
COMMANDS = {
    "size": ("--depth", "--speed", "--tools", "--texture", "--units", "--seed", "--json", "--working", "--notes"),
    "ballast": ("--job", "--front", "--rear", "--total", "--table", "--units", "--json", "--working"),
    "sliptest": ("--slip", "--loaded", "--unloaded", "--off", "--turns", "--per-turn", "--distance", "--ground", "--wheel",
                 "--band"),
    "problems": ("--lesson", "--count", "--seed", "--units", "--student", "--class"), "mark": ("--set",),
    "find": ("--solve-for", "--json"), "check": (), "new": (), "sheet": ("--depth", "--speed", "--paper", "--who", "--units"),
    "compare": ("--vary", "--units", "--json"), "none": (),
}  # fmt: skip
CODES = {0, 1, 2, 3}


def lines(seed: int = 11):
    chance = random.Random(seed)
    for number in range(MANY):
        command = chance.choice(list(COMMANDS))
        words = [command]
        if chance.random() < 0.7:
            words.append(chance.choice([*DEMO_RIGS, *TYPED]))
        for option in chance.sample(COMMANDS[command], min(len(COMMANDS[command]), chance.randint(0, 3))):
            words += [option] if chance.random() < 0.2 else [option, chance.choice(TYPED)]
        yield pytest.param(words, id=f"{number}")


@pytest.mark.parametrize("words", [*lines()])
def test_a_command_line_ends_in_an_answer_or_in_words(words, tmp_path, monkeypatch, capfd):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(sys, "argv", ["rigcalc", *words])
    began = time.process_time()
    with pytest.raises(SystemExit) as ended:
        main()
    assert time.process_time() - began < LONGEST
    out, err = capfd.readouterr()
    assert ended.value.code in CODES, words
    assert (out if ended.value.code in (0, 1, 3) else err).strip() or words[1:2] == ["--help"]
    if words[0] != "new":  # it says the name of the file that it wrote, which may be "inf in"
        assert not re.search(r"\bnan\b|\binf\b", out), words
    assert "Traceback" not in out + err
    assert not re.search(r"[\x00\x1b\udc80-\udcff]", out + err), "what was typed is printed as signs that do nothing"
