"""Starting up: version, help, completion, usage errors, and what is not loaded for them."""

from __future__ import annotations

import subprocess
import sys

import pytest

from conftest import Cli
from regwright import __version__
from regwright.cli import COMMANDS

HEAVY = ("lxml", "jinja2", "jsonschema", "jsonschema_rs", "tree_sitter", "tree_sitter_c")
HEAVY_OWN = ("regwright.audit", "regwright.code", "regwright.read.xml_text", "regwright.reports")


def test_version(cli: Cli) -> None:
    done = cli("--version")
    assert (done.returncode, done.stdout) == (0, f"regwright, version {__version__}\n")


@pytest.mark.parametrize("command", COMMANDS)
def test_help_has_an_example(cli: Cli, command: str) -> None:
    done = cli(command, "--help")
    assert done.returncode == 0
    assert f"Example: regwright {command}" in done.stdout


def test_help_lists_every_command(cli: Cli) -> None:
    text = cli("--help").stdout
    assert all(f"  {command}" in text for command in COMMANDS)
    assert "Example:" in text


@pytest.mark.parametrize(
    "arguments", [["--version"], ["--help"], ["emit", "--help"], ["audit", "--help"]]
)
def test_nothing_heavy_is_loaded(arguments: list[str]) -> None:
    program = (
        "import sys\nfrom regwright.cli import main\n"
        f"sys.argv = ['regwright', *{arguments!r}]\n"
        "try:\n    main()\nexcept SystemExit:\n    pass\n"
        f"print([m for m in {HEAVY + HEAVY_OWN!r} if m in sys.modules], file=sys.stderr)"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    )
    assert done.stderr.strip() == "[]"


@pytest.mark.parametrize(
    "arguments",
    [[], ["check"], ["emit"], ["convert", "a.xml"], ["nothing"], ["check", "--nothing"]],
)
def test_usage_errors_end_with_2(cli: Cli, arguments: list[str]) -> None:
    done = cli(*arguments)
    assert done.returncode == 2
    assert "Usage: regwright" in done.stderr


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_completion(cli: Cli, shell: str) -> None:
    script = cli("completion", shell)
    assert script.returncode == 0
    assert "_REGWRIGHT_COMPLETE" in script.stdout
    words = {"COMP_WORDS": "regwright em", "COMP_CWORD": "1"}
    offered = cli(env={"_REGWRIGHT_COMPLETE": "bash_complete", **words})
    assert offered.stdout == "plain,emit\n"
    words = {"COMP_WORDS": "regwright au", "COMP_CWORD": "1"}
    offered = cli(env={"_REGWRIGHT_COMPLETE": "bash_complete", **words})
    assert offered.stdout == "plain,audit\n"
    words = {"COMP_WORDS": "regwright audit --use", "COMP_CWORD": "2"}
    offered = cli(env={"_REGWRIGHT_COMPLETE": "bash_complete", **words})
    assert offered.stdout == "plain,--use-header\nplain,--uses\n"
