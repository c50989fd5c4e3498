"""Writes a CSV file that begins with `#` lines saying where its numbers come from."""

import csv
import datetime
import platform
from importlib import metadata
from pathlib import Path

DATA_DIR = Path(__file__).resolve().parent.parent / "data"


def versions(packages):
    """Names and versions of the interpreter and of the packages, as one line of text."""
    parts = [f"Python {platform.python_version()}"]
    parts += [f"{name} {metadata.version(name)}" for name in packages]
    return ", ".join(parts)


def write_csv(name, script, packages, notes, header, rows):
    """Writes `tests/data/<name>`: provenance and notes as comments, then a header line, then the rows."""
    path = DATA_DIR / name
    with path.open("w", newline="", encoding="utf-8") as file:
        file.write(f"# Computed by tests/reference/{script}; {versions(packages)}; {datetime.date.today()}.\n")
        for note in notes:
            file.write(f"# {note}\n")
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(header)
        writer.writerows(rows)
    print(f"wrote {path.name}")
