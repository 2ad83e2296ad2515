"""The scripts and style sheets of the page: linted, and their functions tested in node. INSTALL says what they need."""

import shutil
import subprocess
from pathlib import Path

import pytest

HERE = Path(__file__).parent
NODE = shutil.which("node")
INSTALL = "apt-get install nodejs npm && npm --prefix tests/javascript install --no-package-lock"
SCRIPTS = sorted((HERE.parents[1] / "rigcalc" / "widgets" / "browser").glob("*.js"))

pytestmark = pytest.mark.skipif(
    not NODE or not (HERE / "node_modules").is_dir(), reason=f"missing: node and its packages: {INSTALL}"
)


def node(*arguments: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run([NODE, *arguments], cwd=HERE, capture_output=True, text=True, check=False, timeout=300)


def test_nothing_to_complain_about() -> None:
    done = node("lint.js")
    assert done.returncode == 0, done.stdout + done.stderr
    assert done.stdout.startswith(f"{len(SCRIPTS)} scripts, "), "every script was looked at"


@pytest.mark.parametrize("fault", ["const a = 1; b();", "let x = 1; if (x == 2) x = 3;", "function f( {"])
def test_the_linter_can_complain(fault: str) -> None:
    code = (
        'import { ESLint } from "eslint"; import { resolve } from "node:path";'
        'const lint = new ESLint({ cwd: resolve("../.."), overrideConfigFile: resolve("eslint.config.js") });'
        'const filePath = resolve("../../rigcalc/widgets/browser/x.js");'
        "const [found] = await lint.lintText(process.argv[1], { filePath });"
        "process.exit(found.messages.length ? 0 : 9);"
    )
    done = node("--input-type=module", "--eval", code, fault)
    assert done.returncode == 0, done.stdout + done.stderr


def test_functions_do_what_they_should() -> None:
    done = node("--test", "--test-reporter=tap")
    assert done.returncode == 0, done.stdout[-6000:]
    assert "# fail 0" in done.stdout
    assert done.stdout.count("# Subtest:") >= 42


def test_every_script_has_a_test() -> None:
    loaded = "".join(path.read_text(encoding="utf-8") for path in HERE.glob("*.test.js"))
    assert [path.name for path in SCRIPTS if f'"{path.name}"' not in loaded] == []
