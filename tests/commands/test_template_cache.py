"""The compiled templates that are kept: nothing depends on them, whatever has become of them."""

from __future__ import annotations

from pathlib import Path

import pytest

from conftest import DESCRIPTIONS, Cli


@pytest.fixture
def kept(tmp_path: Path) -> Path:
    folder = tmp_path / "kept"
    folder.mkdir()
    return folder


def _emit(cli: Cli, kept: Path) -> str:
    done = cli("emit", DESCRIPTIONS / "sorrel14.xml", "--to", "out", env={"TMPDIR": str(kept)})
    assert done.returncode == 0
    return done.stderr


def test_damaged_files_are_made_anew(cli: Cli, kept: Path) -> None:
    _emit(cli, kept)
    files = sorted(path for path in kept.rglob("*") if path.is_file())
    assert len(files) == 7  # the drawing is no template
    half = files[2].read_bytes()[:200]
    for path, content in zip(files, [b"", b"junk", half, *[b"\0" * 9] * 4], strict=True):
        path.write_bytes(content)
    assert _emit(cli, kept) == "0 written, 8 already current\n"


def test_folder_that_cannot_be_had(cli: Cli, kept: Path) -> None:
    _emit(cli, kept)
    folder = next(kept.iterdir())
    for path in folder.iterdir():
        path.unlink()
    folder.rmdir()
    folder.write_text("no folder")
    assert _emit(cli, kept) == "0 written, 8 already current\n"
