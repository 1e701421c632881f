from __future__ import annotations

import struct
import zlib
from io import BytesIO
from typing import Any

import numpy as np
import pytest
from PIL import Image
from PIL.TiffImagePlugin import IFDRational

from fitwright.job.beside import MOST_BYTES
from fitwright.place.photo import PictureError, fits_in_memory, read_picture
from fitwright.place.photo.picture import MOST_PIXELS

GREY = np.tile(np.arange(64, dtype=np.uint8) * 3, (40, 1))
GREY[:10, :10] = 250
"""Dark on the left, bright on the right, the top left corner bright: no two of its eight turns are alike."""


def saved(image: Image.Image, form: str, **more: Any) -> bytes:
    held = BytesIO()
    image.save(held, form, **more)
    return held.getvalue()


def with_data(orientation: int = 1, details: dict[int, Any] | None = None) -> bytes:
    exif = Image.Exif()
    exif[0x0112] = orientation
    exif.get_ifd(0x8769).update(details or {})
    return saved(Image.fromarray(GREY), "JPEG", quality=95, exif=exif)


@pytest.mark.parametrize("form", ["PNG", "JPEG"])
@pytest.mark.parametrize("mode", ["L", "RGB"])
def test_reads(form: str, mode: str) -> None:
    picture = read_picture(saved(Image.fromarray(GREY).convert(mode), form))
    assert picture.size == (64, 40)
    assert picture.form == form
    assert np.abs(picture.grey.astype(float) - GREY).max() < 40
    assert np.abs(picture.grey.astype(float) - GREY).mean() < 3


def test_clear_counts_as_white_and_sixteen_bits_are_read() -> None:
    clear = Image.merge("LA", (Image.fromarray(GREY), Image.new("L", (64, 40), 0)))
    assert (read_picture(saved(clear, "PNG")).grey == 255).all()
    deep = Image.fromarray(GREY.astype(np.uint16) * 257)
    assert np.abs(read_picture(saved(deep, "PNG")).grey.astype(float) - GREY).max() <= 1


@pytest.mark.parametrize("orientation", range(1, 9))
def test_turned_upright(orientation: int) -> None:
    """As the general-purpose library turns it."""
    from PIL import ImageOps

    data = with_data(orientation)
    upright = np.asarray(ImageOps.exif_transpose(Image.open(BytesIO(data))).convert("L"))
    picture = read_picture(data)
    assert np.abs(picture.grey.astype(float) - upright).max() <= 1
    assert picture.size == ((64, 40) if orientation < 5 else (40, 64))


def test_focal_length_from_its_own_data() -> None:
    assert read_picture(with_data(details={0xA405: 28})).focal_35mm == 28
    assert read_picture(with_data()).focal_35mm is None


@pytest.mark.parametrize("focal", [0, 65535, IFDRational(1, 0)])
def test_a_focal_length_that_cannot_be_is_left_out(focal: Any) -> None:
    assert (
        read_picture(with_data(details={0xA405: focal} if isinstance(focal, int) else {0x9204: focal})).focal_35mm
        is None
    )


def test_whether_it_is_the_whole_picture() -> None:
    assert read_picture(with_data()).whole
    assert read_picture(with_data(details={0xA002: 640, 0xA003: 400})).whole
    assert not read_picture(with_data(details={0xA002: 640, 0xA003: 480})).whole
    turned = read_picture(with_data(6, {0xA002: 640, 0xA003: 400}))
    assert turned.whole
    assert turned.made == (400, 640)


def png(width: int, height: int, body: bytes, depth: int = 8) -> bytes:
    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    head = struct.pack(">IIBBBBB", width, height, depth, 0, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", body) + chunk(b"IEND", b"")


@pytest.mark.parametrize(
    ("size", "says"),
    [
        ((30_000, 30_000), "enormous"),
        ((60_000, 1_000), "20000 on a side"),
        ((8_000, 7_000), "50 megapixels"),
        ((64, 8), "under 32"),
    ],
)
def test_too_large_or_small_is_refused_by_its_heading(size: tuple[int, int], says: str) -> None:
    """The body would unpack to nothing like the size said: it is never looked at."""
    with pytest.raises(PictureError, match=says):
        read_picture(png(*size, zlib.compress(b"")))


def test_a_bomb_within_the_bounds_stays_within_them() -> None:
    """A good heading with a body that unpacks to far more: only the picture's own pixels are kept."""
    bomb = png(64, 64, zlib.compress(b"\0" * 50_000_000, 9))
    assert len(bomb) < 100_000
    assert read_picture(bomb).grey.shape == (64, 64)


def test_a_file_too_long_is_refused_before_it_is_read() -> None:
    with pytest.raises(PictureError, match="81 MB; at most 80 MB"):
        fits_in_memory(MOST_BYTES + 1_000_000, "x.png")
    assert MOST_PIXELS == 50_000_000


@pytest.mark.parametrize(
    "data", [b"", b"GIF89a" + bytes(50), b"%PDF-1.7", b"<svg/>", bytes(1000), b"\xff\xd8\xff\xe0rest"]
)
def test_what_is_no_picture(data: bytes) -> None:
    with pytest.raises(PictureError, match=r"JPEG or PNG|broken"):
        read_picture(data)


@pytest.mark.parametrize("form", ["GIF", "TIFF", "BMP", "WEBP"])
def test_other_pictures_are_refused(form: str) -> None:
    with pytest.raises(PictureError, match="save it as JPEG or PNG"):
        read_picture(saved(Image.fromarray(GREY), form))


@pytest.mark.parametrize("form", ["PNG", "JPEG"])
def test_cut_short_anywhere(form: str) -> None:
    """Either it is told as broken, or the picture is all there; never another error."""
    data = saved(Image.fromarray(GREY), form)
    for end in range(0, len(data) - 20, 17):
        with pytest.raises(PictureError):
            read_picture(data[:end])


@pytest.mark.parametrize("form", ["PNG", "JPEG"])
def test_bytes_changed_anywhere(form: str) -> None:
    data = bytearray(saved(Image.fromarray(GREY), form))
    chance = np.random.default_rng(1)
    for _ in range(150):
        spoilt = bytearray(data)
        for at in chance.integers(0, len(data), 6):
            spoilt[at] = int(chance.integers(256))
        try:
            read_picture(bytes(spoilt))
        except PictureError:
            continue


def test_broken_data_about_the_picture_does_not_matter() -> None:
    data = with_data(6, {0xA405: 28})
    at = data.index(b"Exif\0\0")
    assert read_picture(data[: at + 10] + b"\xff" * 30 + data[at + 40 :]).size in ((64, 40), (40, 64))


def test_heic_needs_its_reader(monkeypatch: pytest.MonkeyPatch) -> None:
    import sys

    monkeypatch.setitem(sys.modules, "pi_heif", None)
    with pytest.raises(PictureError, match=r"save it as JPEG, or install fitwright\[heic\]"):
        read_picture(b"\0\0\0\x18ftypheic" + bytes(100))


def test_a_broken_heic_is_refused_by_its_reader() -> None:
    pytest.importorskip("pi_heif")
    with pytest.raises(PictureError, match="is broken"):
        read_picture(b"\0\0\0\x18ftypheic" + bytes(100), "old.heic")
