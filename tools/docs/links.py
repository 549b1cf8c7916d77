"""Links between pages: every target must be there, and so must the heading it points at."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from pathlib import Path

from tools.docs.fault import Fault

_LINK = re.compile(r"\[[^\]]*\]\(([^)\s]+)\)")


def dead(pages: Iterable[Path], root: Path, coming: Mapping[Path, str] | None = None) -> list[Fault]:
    """Links that lead nowhere; `coming` holds the text of pages that are about to be written."""
    texts = dict(coming or {})
    faults = []
    for page in sorted({*pages, *(p for p in texts if p.suffix == ".md")}):
        text = texts[page] if page in texts else page.read_text("utf-8")
        for target in _LINK.findall(_without_code(text)):
            if re.match(r"[a-z]+:", target):
                continue
            name, _, heading = target.partition("#")
            file = (page.parent / name).resolve() if name else page
            if not (file.exists() or file in texts):
                faults.append(Fault(str(page.relative_to(root)), f"dead link to '{target}'"))
            elif heading and file.suffix == ".md":
                found = texts[file] if file in texts else file.read_text("utf-8")
                if heading not in headings(found):
                    faults.append(Fault(str(page.relative_to(root)), f"no heading for '{target}'"))
    return faults


def headings(text: str) -> set[str]:
    """Anchors of a page's headings: lower case, spaces to hyphens, other marks dropped."""
    found = re.findall(r"^#+ (.+)$", _without_fences(text), re.MULTILINE)
    return {re.sub(r"[^\w\- ]", "", heading.lower()).replace(" ", "-") for heading in found}


def _without_fences(text: str) -> str:
    return re.sub(r"^```.*?^```", "", text, flags=re.MULTILINE | re.DOTALL)


def _without_code(text: str) -> str:
    return re.sub(r"`[^`\n]*`", "", _without_fences(text))
