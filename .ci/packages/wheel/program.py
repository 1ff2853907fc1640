"""Puts the program SNELL_PROGRAM into a wheel, and names the systems SNELL_TAG that it runs on."""

import os
from pathlib import Path

from hatchling.builders.hooks.plugin.interface import BuildHookInterface


class Program(BuildHookInterface):
    def initialize(self, version, build_data):
        program = Path(os.environ["SNELL_PROGRAM"])
        build_data["shared_scripts"] = {str(program): program.name}
        build_data["tag"] = f"py3-none-{os.environ['SNELL_TAG']}"
        build_data["pure_python"] = False
