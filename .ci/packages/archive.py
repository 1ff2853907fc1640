#!/usr/bin/env python3
"""Packs a folder so that the same files always give the same bytes.

    archive.py FOLDER OUT.tar.gz|OUT.zip

Names are sorted, and nothing of the machine stays: no owner, no clock but SOURCE_DATE_EPOCH.
"""

import gzip
import os
import sys
import tarfile
import time
import zipfile
from pathlib import Path

EPOCH = int(os.environ["SOURCE_DATE_EPOCH"])


def mode(path):
    return 0o755 if os.access(path, os.X_OK) or path.suffix == ".exe" else 0o644


def files(folder):
    """Each file with its name in the archive, the folder's own name in front."""
    found = sorted(path for path in folder.rglob("*") if path.is_file())
    return [(path, f"{folder.name}/{path.relative_to(folder).as_posix()}") for path in found]


def tar(folder, out):
    # The name of the file and the clock would else stand in gzip's head.
    with out.open("wb") as raw, gzip.GzipFile("", "wb", 9, raw, EPOCH) as packed:
        with tarfile.open(mode="w", fileobj=packed, format=tarfile.PAX_FORMAT) as archive:
            for path, name in files(folder):
                entry = tarfile.TarInfo(name)
                entry.size, entry.mtime, entry.mode = path.stat().st_size, EPOCH, mode(path)
                with path.open("rb") as content:
                    archive.addfile(entry, content)


def zipped(folder, out):
    clock = time.gmtime(EPOCH)[:6]
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as archive:
        for path, name in files(folder):
            entry = zipfile.ZipInfo(name, clock)
            entry.compress_type, entry.create_system = zipfile.ZIP_DEFLATED, 3
            entry.external_attr = (0o100000 | mode(path)) << 16
            archive.writestr(entry, path.read_bytes())


if __name__ == "__main__":
    source, target = Path(sys.argv[1]), Path(sys.argv[2])
    (zipped if target.suffix == ".zip" else tar)(source, target)
