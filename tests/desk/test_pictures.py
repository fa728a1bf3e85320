"""Photos: upright whatever way the telephone lay, nothing in the file but the picture, one file for one photo."""

from __future__ import annotations

import hashlib
import struct
import zlib
from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import numpy as np
import pytest
from desk.in_hand import now
from PIL import Image, TiffImagePlugin

from axlewright import desk, store
from axlewright.desk import pictures
from axlewright.desk.photos import with_photo
from axlewright.desk.pictures import KEPT_BYTES, LONG_SIDE, photo_name, photo_of
from axlewright.yard import Beside, Change, Faults, Finding, Move

ORIENTATION, GPS = 0x0112, 0x8825
WAYS: dict[int, Callable[[np.ndarray], np.ndarray]] = {
    1: lambda a: a,
    2: np.fliplr,
    3: lambda a: np.rot90(a, 2),
    4: np.flipud,
    5: lambda a: np.swapaxes(a, 0, 1),
    6: lambda a: np.rot90(a, -1),
    7: lambda a: np.rot90(np.swapaxes(a, 0, 1), 2),
    8: lambda a: np.rot90(a, 1),
}
"""What each orientation of EXIF 2.3 wants done to the rows and columns as they are stored, with NumPy alone."""


def scene(width: int = 96, height: int = 64) -> np.ndarray:
    """A picture in which no turning or mirroring looks the same: four fields of colour, one of them small."""
    picture = np.zeros((height, width, 3), np.uint8)
    picture[: height // 2, : width // 2] = (220, 30, 30)
    picture[: height // 2, width // 2 :] = (30, 200, 30)
    picture[height // 2 :, : width // 2] = (30, 30, 220)
    picture[height // 2 :, width // 2 :] = (230, 230, 230)
    picture[: height // 4, : width // 4] = (0, 0, 0)
    return picture


def sent(
    picture: np.ndarray | None = None, form: str = "JPEG", exif: Image.Exif | None = None, **more: object
) -> bytes:
    out = BytesIO()
    Image.fromarray(scene() if picture is None else picture).save(out, form, exif=exif or Image.Exif(), **more)
    return out.getvalue()


def seen(data: bytes) -> np.ndarray:
    with Image.open(BytesIO(data)) as found:
        return np.asarray(found.convert("RGB"), float)


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("form", ["JPEG", "PNG"])
def test_every_way_the_telephone_lay_is_turned_upright(way: int, form: str) -> None:
    exif = Image.Exif()
    exif[ORIENTATION] = way
    kept = photo_of(sent(form=form, exif=exif, **({"quality": 95} if form == "JPEG" else {})))
    wanted = WAYS[way](scene()).astype(float)
    found = seen(kept.data)
    assert found.shape == wanted.shape
    assert np.abs(found - wanted).mean() < 4
    others = [WAYS[other](scene()) for other in WAYS if other != way]
    assert all(np.abs(found - other).mean() > 20 for other in others if other.shape == found.shape)


def test_position_time_and_maker_are_gone_and_the_picture_stands() -> None:
    exif = Image.Exif()
    exif[0x010F], exif[0x0132] = "a maker", "2026:08:28 19:30:00"
    degrees = tuple(TiffImagePlugin.IFDRational(n) for n in (51, 30, 7))
    exif[GPS] = {1: "N", 2: degrees, 3: "E", 4: degrees}
    data = sent(exif=exif, comment=b"a comment", dpi=(300, 300))
    with Image.open(BytesIO(data)) as before:
        assert before.getexif().get_ifd(GPS)  # it was there
    kept = photo_of(data).data
    with Image.open(BytesIO(kept)) as after:
        assert dict(after.getexif()) == {}
        assert dict(after.getexif().get_ifd(GPS)) == {}
        assert set(after.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}
    for said in (b"Exif", b"a maker", b"a comment", b"2026:08:28", b"XMP", b"http"):
        assert said not in kept


def test_what_hangs_behind_the_picture_is_gone_too() -> None:
    """Some telephones hang a short film, with its position, behind the picture."""
    plain = photo_of(sent()).data
    assert photo_of(plain + b"moov GPS" + sent()).data != plain + b"moov GPS" + sent()
    assert b"moov" not in photo_of(plain + b"moov GPS").data
    assert b"moov" not in photo_of(plain + b"moov GPS\xff\xd9").data


def test_one_photo_is_one_file_named_by_what_stands_in_it() -> None:
    data = sent(quality=90)
    kept = photo_of(data)
    assert kept == photo_of(data)
    assert kept.name == f"photos/{hashlib.sha256(kept.data).hexdigest()[:32]}.jpg"
    assert photo_of(kept.data) == kept  # fetched and sent again
    assert photo_of(sent(scene()[::-1])).name != kept.name


@pytest.mark.parametrize("size", [(3000, 1500), (1500, 3000), (2049, 10), (2048, 2048), (40, 30)])
def test_no_side_is_longer_than_it_need_be_and_its_shape_stays(size: tuple[int, int]) -> None:
    with Image.open(BytesIO(photo_of(sent(scene(*size))).data)) as found:
        wanted = [side * min(1, LONG_SIDE / max(size)) for side in size]
        assert max(found.size) <= LONG_SIDE
        assert found.size == pytest.approx(wanted, abs=1)
        assert found.format == "JPEG"


def test_gravel_and_straw_are_kept_within_their_bytes() -> None:
    """Noise is the worst that a JPEG can be asked to hold."""
    noise = np.random.default_rng(7).integers(0, 256, (2048, 2048, 3), np.uint8)
    assert len(sent(noise, quality=85)) > KEPT_BYTES
    assert len(photo_of(sent(noise, quality=85)).data) <= KEPT_BYTES


def test_what_is_clear_becomes_white_and_grey_or_few_colours_will_do() -> None:
    clear = np.zeros((20, 20, 4), np.uint8)
    assert seen(photo_of(sent(clear, "PNG")).data).min() > 250
    for mode in ("L", "P", "1", "I;16", "CMYK", "LA"):
        out = BytesIO()
        base = Image.fromarray(scene())
        made = Image.new(mode, (9, 9)) if mode in ("I;16", "LA") else base.convert(mode)
        made.save(out, "JPEG" if mode == "CMYK" else "PNG")
        assert photo_of(out.getvalue()).data.startswith(b"\xff\xd8\xff")
    assert np.abs(seen(photo_of(sent(form="WEBP", lossless=True)).data) - scene()).mean() < 4


def bomb() -> bytes:
    """A PNG of a few bytes that says that it has ten thousand million pixels."""
    head = struct.pack(">IIBBBBB", 100_000, 100_000, 8, 2, 0, 0, 0)

    def part(name: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))

    rows = part(b"IDAT", zlib.compress(bytes(1000)))
    return b"\x89PNG\r\n\x1a\n" + part(b"IHDR", head) + rows + part(b"IEND", b"")


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"", "no photo"),
        (b"plug=paste", "no photo"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "no photo"),
        (b"GIF89a" + bytes(40), "no photo"),
        (b"%PDF-1.7" + bytes(40), "no photo"),
        (b"\xff\xd8\xff\xe0" + b"card" * 400, "cut off"),
        (bytes(4) + b"ftypheic" + bytes(40), "HEIC"),
        (bytes(4) + b"ftypqt  " + bytes(40), "film"),
        (sent()[:700], "cut off"),
        (sent(form="PNG")[:-40], "cut off"),
        (bomb(), "million pixels"),
        (bytes(12_000_001), "12 MB"),
    ],
)
def test_what_cannot_be_kept_is_said_and_nothing_is_kept(data: bytes, says: str) -> None:
    with pytest.raises(Faults) as bad:
        photo_of(data, "plug")
    assert bad.value.faults[0].where == "plug"
    assert says in bad.value.faults[0].what
    assert bad.value.faults[0].right


def test_a_photo_just_over_the_pixels_is_refused_before_it_is_opened(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pictures, "MOST_PIXELS", 96 * 64 - 1)
    exif = Image.Exif()
    exif[ORIENTATION] = 1
    with pytest.raises(Faults, match="pixels"):
        photo_of(sent(exif=exif))
    monkeypatch.setattr(pictures, "MOST_PIXELS", 96 * 64)
    assert photo_of(sent(exif=exif))


def test_a_photo_goes_beside_what_it_shows_and_sent_twice_is_kept_once() -> None:
    yard, photo = store.at(store.DEMO).read(), photo_of(sent())
    deed = desk.Seen(id="form", corner="bramble/front-right", marks=(desk.Mark(finding="plug", grade="paste"),))
    change = with_photo(desk.add_findings(yard, deed, now()), photo)
    assert [one.photo for one in change.of(Finding)] == [photo_name(photo)]
    assert change.beside == (photo,)
    after = yard.with_(change)
    assert not after.fresh(with_photo(desk.add_findings(after, deed, now(later=3)), photo)).records
    moved = desk.MoveDrive(drive="broad-spare", to="bench")
    assert [one.photo for one in with_photo(desk.move_drive(yard, moved, now()), photo).of(Move)] == [photo_name(photo)]
    assert with_photo(change, None) == change


def test_a_photo_that_was_kept_is_never_written_over(tmp_path: Path) -> None:
    store.lay_out(tmp_path / "yard", store.DEMO)
    place, photo = store.at(tmp_path / "yard"), photo_of(sent())
    finding = desk.Seen(corner="bramble/front-right", marks=(desk.Mark(finding="plug", grade="paste"),))
    for _ in range(2):
        desk.carry_out(place, lambda standing: with_photo(desk.add_findings(standing, finding, now()), photo))
    assert place.file(photo.name) == photo.data
    assert [name for name in place.beside() if name.startswith("photos/")] == [photo.name]
    other = Change((), (Beside(photo.name, b"another picture"),))
    with pytest.raises(Faults, match="kept already"):
        place.write(other, place.read().seen)
    assert place.file(photo.name) == photo.data


def test_a_machine_or_a_drive_has_its_photos_and_none_pushes_out_another() -> None:
    yard = store.at(store.DEMO).read()
    for thing, of in (("Bramble", "machine"), ("box-spare", "drive"), ("linnet-spare", "drive")):
        for name in ("a.jpg", "b.jpg", "a.jpg"):
            yard = yard.with_(desk.photograph(yard, desk.Photographed(thing=thing, photo=name), now()))
        assert desk.thing_named(yard, thing).photos == ("a.jpg", "b.jpg")
        assert desk.thing_named(yard, thing).what == of
    assert str(yard.drive("linnet-spare").sits) == "linnet/front-right"  # its moves stand
    with pytest.raises(Faults, match="no machine or drive"):
        desk.photograph(yard, desk.Photographed(thing="heron", photo="a.jpg"), now())
