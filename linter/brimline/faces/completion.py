"""`brimline completion`: a script that lets a shell complete commands, options and their choices."""

from typing import TYPE_CHECKING

from brimline.faces.declare import Arguments, Command, Given

if TYPE_CHECKING:
    from brimline.faces.console import Console

SHELLS = ("bash", "zsh", "fish", "powershell")


def run(arguments: Arguments, console: "Console") -> int:
    """Print the script for a shell."""
    from brimline.faces.commands import commands
    from brimline.faces.scripts import script

    console.say(script(arguments.given[0], commands()))
    return 0


COMMAND = Command(
    name="completion",
    does="prints a script with which a shell completes what you type",
    example="brimline completion bash > ~/.local/share/bash-completion/completions/brimline",
    run=run,
    given=Given("SHELL", ", ".join(SHELLS), choices=SHELLS),
    more=(
        "In PowerShell, add the output to the file that $PROFILE names:\n"
        "  brimline completion powershell | Out-String | Add-Content $PROFILE"
    ),
)
