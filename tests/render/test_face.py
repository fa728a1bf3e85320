"""Widths of words against typst's own measure of the same face."""

from __future__ import annotations

import pytest
import typst

from axlewright.render.face import FONTS, MISSING, drawable, width, widths
from axlewright.render.pdf import alone, face

MEASURE = """#set page(width: auto, height: auto)
#set text(font: "Axlewright Sheet", size: 100pt, fallback: false, kerning: false, weight: "WEIGHT")
#context [#metadata(measure(sys.inputs.said).width.pt()) <wide>]
"""


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize(
    "said", ["4\u202f748\u00a0h", "340 N·m", "Ölstand ≥ 12 µm", "Жук שלום", "ΔΣ → × −", "WORK IN FIELD"]
)
def test_as_wide_as_typst_measures(said: str, bold: bool) -> None:
    source = MEASURE.replace("WEIGHT", "bold" if bold else "regular").encode()
    told = typst.query(
        source, "<wide>", field="value", one=True, root=alone().name, font_paths=face(), sys_inputs={"said": said}
    )
    assert width(said, 100, bold=bold) == pytest.approx(float(told), rel=1e-3)


def test_the_face_has_what_a_sheet_writes() -> None:
    needed = "\u202f\u00a0·×−–…’“”²³°µΩ€≤≥→½¼¾abcÅßŁŐžΔκЖ"
    assert not [letter for letter in needed if ord(letter) not in widths() or ord(letter) not in widths("Bold")]
    assert drawable(needed + "🚜") == needed + MISSING


def test_the_licence_lies_beside_the_face() -> None:
    said = (FONTS / "OFL.txt").read_text(encoding="utf-8")
    assert "SIL OPEN FONT LICENSE Version 1.1" in said
    assert "Reserved Font Name" in said
