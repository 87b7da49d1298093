"""The register of commands: each lives in a module of its own, imported when it is called for."""

from importlib import import_module

from brimline.faces.declare import Command

# In the order of the help. A new command is a module with a COMMAND, and its name here.
NAMES = ("review", "compare", "suppose", "gate", "weigh", "neaten", "seal", "settings", "why", "completion")


def command(name: str) -> Command:
    """The command of this name, which must be one of NAMES."""
    found = import_module(f"brimline.faces.{name}").COMMAND
    if not isinstance(found, Command):
        raise TypeError(f"the module for {name} declares no command")
    return found


def commands() -> tuple[Command, ...]:
    """All commands, in the order of the help."""
    return tuple(command(name) for name in NAMES)
