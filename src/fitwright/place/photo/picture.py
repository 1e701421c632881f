"""A picture read from a file: upright, grey, with what its camera says; what is broken or hostile is refused.

Memory: a picture of 50 megapixels takes 50 MB grey, and 150 (JPEG) to 400 MB (PNG with clear parts) while it is read.
"""

from __future__ import annotations

import warnings
from dataclasses import dataclass
from io import BytesIO
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from fitwright.job.beside import MOST_BYTES
from fitwright.place.photo.mistakes import PictureError

if TYPE_CHECKING:
    from PIL.Image import Image

MOST_PIXELS = 50_000_000
LEAST_SIDE = 32
MOST_SIDE = 20_000
READ = {"JPEG": "JPEG", "MPO": "JPEG", "PNG": "PNG", "HEIF": "HEIC"}
HEIC_BRANDS = (b"ftypheic", b"ftypheix", b"ftypmif1", b"ftyphevc", b"ftypmsf1", b"ftypheim")

ORIENTATION, DETAILS, FOCAL_35MM, MADE_WIDE, MADE_HIGH = 0x0112, 0x8769, 0xA405, 0xA002, 0xA003
"""Numbers of the tags. Source: CIPA DC-008 (Exif 2.32), tables 4 and 8."""
SHORTEST_35MM, LONGEST_35MM = 5.0, 2000.0


@dataclass(frozen=True, eq=False)
class Picture:
    """A picture turned upright: grey (height, width) uint8.

    focal_35mm: of a lens with the same view on 35 mm film [mm], where the file says it.

    made (width, height) [px]: the size that the camera made, upright, where it says so.
    """

    grey: NDArray[np.uint8]
    focal_35mm: float | None
    made: tuple[int, int] | None
    form: str

    @property
    def size(self) -> tuple[int, int]:
        """Width and height [px]."""
        height, width = self.grey.shape
        return width, height

    @property
    def whole(self) -> bool:
        """Whether it may be the whole picture as the camera made it: nothing says that its shape was changed."""
        if self.made is None:
            return True
        (width, height), (wide, high) = self.size, self.made
        return abs(width * high - height * wide) <= 0.01 * height * wide


def read_picture(data: bytes, name: str = "the picture") -> Picture:
    """Read a picture.

    Raises PictureError for what is not JPEG, PNG or HEIC, is broken, or is larger than 50 megapixels.
    """
    fits_in_memory(len(data), name)
    opened = _opened(data, name)
    try:
        _fits(opened, name)
        said = _said(opened)
        grey = _grey(opened)
    except PictureError:
        raise
    except (OSError, ValueError, SyntaxError, EOFError, MemoryError, IndexError, TypeError) as wrong:
        raise PictureError(f"{name} is broken ({wrong}): copy it again from the camera or the phone") from None
    upright = _turned(grey, int(said.get(ORIENTATION, 1)))
    return Picture(upright, _focal(said), _made(said, upright.shape != grey.shape), READ[str(opened.format)])


def fits_in_memory(size: int, name: str) -> None:
    """Refuse a file by its size [bytes], before it is read; raises PictureError."""
    if size > MOST_BYTES:
        most = f"{MOST_BYTES / 1e6:.0f} MB"
        raise PictureError(f"{name} has {size / 1e6:.0f} MB; at most {most} is read: save it smaller")


def _opened(data: bytes, name: str) -> Image:
    from PIL import Image, JpegImagePlugin, PngImagePlugin, UnidentifiedImageError

    known = [JpegImagePlugin.JpegImageFile.format, PngImagePlugin.PngImageFile.format]
    with_heic = _heic(data, name)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            return Image.open(BytesIO(data), formats=["HEIF"] if with_heic else known)
    except Image.DecompressionBombError:
        raise PictureError(f"{name} is enormous: at most {MOST_PIXELS / 1e6:.0f} megapixels are read") from None
    except UnidentifiedImageError:
        if with_heic:
            raise PictureError(f"{name} is broken: copy it again from the phone, or save it as JPEG") from None
        raise PictureError(f"{name} is not a picture that is read here: save it as JPEG or PNG") from None
    except (OSError, ValueError, SyntaxError, EOFError, MemoryError, IndexError, TypeError) as wrong:
        raise PictureError(f"{name} is broken ({wrong}): copy it again from the camera or the phone") from None


def _heic(data: bytes, name: str) -> bool:
    """Whether it is HEIC, which needs a reader that is not always there."""
    if data[4:12] not in HEIC_BRANDS:
        return False
    try:
        import pi_heif
    except ImportError:
        raise PictureError(
            f"{name} is HEIC, and its reader (pi-heif) is not installed: save it as JPEG, or install fitwright[heic]"
        ) from None
    pi_heif.register_heif_opener(thumbnails=False)
    return True


def _fits(opened: Image, name: str) -> None:
    """Judge the size by the heading, before anything is unpacked."""
    width, height = opened.size
    if width * height > MOST_PIXELS or max(width, height) > MOST_SIDE:
        raise PictureError(
            f"{name} is {width} x {height} pixels: save it smaller; at most {MOST_PIXELS / 1e6:.0f} megapixels and "
            f"{MOST_SIDE} on a side are read"
        )
    if min(width, height) < LEAST_SIDE:
        raise PictureError(f"{name} is {width} x {height} pixels; nothing can be measured under {LEAST_SIDE} on a side")


def _grey(opened: Image) -> NDArray[np.uint8]:
    """Grey values, unpacked as grey where the file allows it; what is clear counts as white."""
    opened.draft("L", opened.size)
    opened.load()
    if opened.mode in ("I;16", "I;16B", "I;16L", "I"):
        return (np.asarray(opened, dtype=np.float32) / 256).clip(0, 255).astype(np.uint8)
    if opened.mode in ("RGBA", "LA", "PA") or "transparency" in opened.info:
        from PIL import Image

        both = opened if opened.mode == "RGBA" else opened.convert("RGBA")
        white = Image.new("L", both.size, 255)
        white.paste(both.convert("L"), mask=both.getchannel("A"))
        return np.array(white, dtype=np.uint8)
    return np.array(opened.convert("L"), dtype=np.uint8)


def _said(opened: Image) -> dict[int, Any]:
    """What the camera wrote into the file; nothing where that is broken, for it is not needed."""
    try:
        tags = opened.getexif()
        return {**dict(tags), **dict(tags.get_ifd(DETAILS))}
    except Exception:
        return {}


def _turned(grey: NDArray[np.uint8], orientation: int) -> NDArray[np.uint8]:
    """Upright, by the eight orientations. Source: CIPA DC-008 (Exif 2.32), 4.6.4 A, Orientation."""
    if orientation in (5, 6, 7, 8):
        grey = grey.T
    if orientation in (2, 3, 6, 7):
        grey = grey[:, ::-1]
    if orientation in (3, 4, 7, 8):
        grey = grey[::-1]
    return np.ascontiguousarray(grey)


def _focal(said: dict[int, Any]) -> float | None:
    focal = _number(said.get(FOCAL_35MM))
    return focal if focal is not None and SHORTEST_35MM <= focal <= LONGEST_35MM else None


def _made(said: dict[int, Any], turned: bool) -> tuple[int, int] | None:
    wide, high = _number(said.get(MADE_WIDE)), _number(said.get(MADE_HIGH))
    if not wide or not high or wide < 1 or high < 1:
        return None
    return (int(high), int(wide)) if turned else (int(wide), int(high))


def _number(value: Any) -> float | None:
    try:
        number = float(value)
    except (TypeError, ValueError, ZeroDivisionError):
        return None
    return number if np.isfinite(number) else None
