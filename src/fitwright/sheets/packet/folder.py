"""The folder that a packet goes to: each file whole or not at all."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from fitwright.errors import FitwrightError


class PacketError(FitwrightError, OSError):
    """A packet that cannot be written where it was wanted; the message says why and what to do."""


def made(folder: Path) -> Path:
    """The folder, made with those above it where it is not there. Raises PacketError where it cannot be."""
    if folder.exists() and not folder.is_dir():
        raise PacketError(f"{folder} is a file: give a folder to write the packet to")
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as wrong:
        raise PacketError(f"the folder {folder} cannot be made: {_reason(wrong)}; choose another with --to") from wrong
    return folder


@contextmanager
def written(file: Path) -> Iterator[Path]:
    """A path to write to, which becomes the file when all went well; the old file stays until then.

    Raises PacketError when the file cannot be written.
    """
    if not file.name:  # "." and "/" are folders, and have no name to write a draft beside
        raise PacketError(f"{file} cannot be written: {REASONS[IsADirectoryError]}")
    draft = file.with_name(f".{file.stem}.{os.getpid()}.draft{file.suffix}")
    try:
        yield draft
        os.replace(draft, file)
    except OSError as wrong:
        if isinstance(wrong, FitwrightError):
            raise
        raise PacketError(f"{file} cannot be written: {_reason(wrong)}") from wrong
    finally:
        draft.unlink(missing_ok=True)


def write(file: Path, content: bytes) -> Path:
    """The file with this content, whole. Raises PacketError when it cannot be written."""
    with written(file) as draft:
        draft.write_bytes(content)
    return file


REASONS = {
    PermissionError: "you have no permission to write there; choose another folder or ask for it",
    FileNotFoundError: "its folder is gone",
    NotADirectoryError: "a file stands where a folder should be",
    IsADirectoryError: "a folder of that name is in the way",
}


def _reason(wrong: OSError) -> str:
    return REASONS.get(type(wrong)) or (wrong.strerror or str(wrong)).lower()
