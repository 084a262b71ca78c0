"""The calculation file: content in, PDF bytes out, the same bytes for the same content."""

from __future__ import annotations

import json
from importlib.resources import as_file, files
from typing import Any

from firnstead.core.errors import OutputError


def typeset(data: dict[str, Any], template: str = "report.typ") -> bytes:
    """Typeset `data` with one of our templates as PDF."""
    import typst

    with as_file(files("firnstead")) as root:
        try:
            made = typst.compile(
                str(root / "reports" / "templates" / template),
                root=str(root / "reports" / "templates"),
                font_paths=[str(root / "fonts")],
                ignore_system_fonts=True,
                sys_inputs={"data": json.dumps(data, ensure_ascii=False)},
                format="pdf",
                pdf_tags=False,  # tags make the file five times as large
            )
        except typst.TypstError as why:
            raise OutputError(f"the calculation file could not be typeset ({why})") from why
    if not isinstance(made, bytes):
        raise OutputError("the calculation file could not be typeset (no pages came out)")
    return made
