"""Completion scripts for four shells, generated from the declared commands, so that they never drift from the parser."""

from collections.abc import Sequence

from brimline.faces.declare import Command, Option

_TOP = ("--help", "--version")


def script(shell: str, commands: Sequence[Command]) -> str:
    """The completion script for `bash`, `zsh`, `fish` or `powershell`."""
    return {"bash": _bash, "zsh": _zsh, "fish": _fish, "powershell": _powershell}[shell](commands)


def _options(command: Command) -> list[str]:
    return [*(option.name for option in command.options), "--help"]


def _valued(commands: Sequence[Command]) -> dict[str, list[Option]]:
    return {one.name: [option for option in one.options if option.value] for one in commands}


def _bash(commands: Sequence[Command]) -> str:
    top = " ".join([*(one.name for one in commands), *_TOP])
    cases, words = [], []
    for command in commands:
        for option in _valued(commands)[command.name]:
            if option.choices:
                reply = f'COMPREPLY=($(compgen -W "{" ".join(option.choices)}" -- "$word"))'
            elif option.files:
                reply = 'COMPREPLY=($(compgen -d -- "$word"))'
            else:
                reply = "COMPREPLY=()"
            cases.append(f"        {command.name},{option.name}) {reply}; return ;;")
        given = " ".join(command.given.choices) if command.given else ""
        words.append(f'        {command.name}) words="{" ".join([*_options(command), *given.split()])}" ;;')
    files = "|".join(one.name for one in commands if one.given and one.given.files)
    lines = [
        "_brimline() {",
        '    local word="${COMP_WORDS[COMP_CWORD]}" before="${COMP_WORDS[COMP_CWORD-1]}" verb="${COMP_WORDS[1]}" words=""',
        '    if [ "$COMP_CWORD" -eq 1 ]; then',
        f'        COMPREPLY=($(compgen -W "{top}" -- "$word")); return',
        "    fi",
        '    case "$verb,$before" in',
        *cases,
        "    esac",
        '    case "$verb" in',
        *words,
        "    esac",
        '    COMPREPLY=($(compgen -W "$words" -- "$word"))',
        f'    case "$verb" in {files}) [ "${{word#-}}" = "$word" ] && compopt -o default && COMPREPLY=() ;; esac',
        "}",
        "complete -F _brimline brimline",
    ]
    return "\n".join(lines) + "\n"


def _zsh(commands: Sequence[Command]) -> str:
    lines = ["#compdef brimline", "_brimline() {", "  if (( CURRENT == 2 )); then"]
    lines.append("    local -a verbs=(" + " ".join(_single(f"{one.name}:{one.does}") for one in commands) + ")")
    lines += ["    _describe 'command' verbs", f"    compadd -- {' '.join(_TOP)}", "    return", "  fi"]
    lines.append('  case "${words[2]}" in')
    for command in commands:
        lines.append(f"    {command.name})")
        lines.append('      case "${words[CURRENT-1]}" in')
        for option in _valued(commands)[command.name]:
            action = f"compadd -- {' '.join(option.choices)}" if option.choices else "_files -/" * option.files or ":"
            lines.append(f"        {option.name}) {action}; return ;;")
        lines.append("      esac")
        lines.append(
            f'      if [[ "${{words[CURRENT]}}" == -* ]]; then compadd -- {" ".join(_options(command))}; return; fi'
        )
        if command.given and command.given.choices:
            lines.append(f"      compadd -- {' '.join(command.given.choices)}")
        elif command.given and command.given.files:
            lines.append("      _files")
        lines.append("      ;;")
    lines += ["  esac", "}", "compdef _brimline brimline"]
    return "\n".join(lines) + "\n"


def _fish(commands: Sequence[Command]) -> str:
    lines = ["complete -c brimline -f"]
    for flag in _TOP:
        lines.append(f"complete -c brimline -n __fish_use_subcommand -l {flag.lstrip('-')}")
    for command in commands:
        lines.append(f"complete -c brimline -n __fish_use_subcommand -a {command.name} -d {_single(command.does)}")
        here = f"-n '__fish_seen_subcommand_from {command.name}'"
        for option in command.options:
            value = (
                f" -x -a '{' '.join(option.choices)}'"
                if option.choices
                else (" -r -F" if option.files else " -x" * bool(option.value))
            )
            lines.append(f"complete -c brimline {here} -l {option.name.lstrip('-')}{value} -d {_single(option.says)}")
        lines.append(f"complete -c brimline {here} -l help")
        if command.given and command.given.choices:
            lines.append(f"complete -c brimline {here} -a '{' '.join(command.given.choices)}'")
        elif command.given and command.given.files:
            lines.append(f"complete -c brimline {here} -F")
    return "\n".join(lines) + "\n"


def _powershell(commands: Sequence[Command]) -> str:
    verbs = ", ".join(_quoted(word) for word in [*(one.name for one in commands), *_TOP])
    table, choices = [], []
    for command in commands:
        words = [*_options(command), *(command.given.choices if command.given else ())]
        table.append(f"        {_quoted(command.name)} = @({', '.join(_quoted(word) for word in words)})")
        for option in _valued(commands)[command.name]:
            listed = ", ".join(_quoted(word) for word in option.choices)
            choices.append(f"        {_quoted(f'{command.name} {option.name}')} = @({listed})")
    files = ", ".join(_quoted(one.name) for one in commands if one.given and one.given.files)
    lines = [
        "Register-ArgumentCompleter -Native -CommandName brimline -ScriptBlock {",
        "    param($word, $line, $cursor)",
        f"    $verbs = @({verbs})",
        f"    $files = @({files})",
        "    $words = @{",
        *table,
        "    }",
        "    $choices = @{",
        *choices,
        "    }",
        "    $before = $line.CommandElements | Where-Object { $_.Extent.EndOffset -lt $cursor }",
        '    $typed = @($before | ForEach-Object { "$_" })',
        "    if ($typed.Count -le 1) { $offered = $verbs }",
        '    elseif ($choices.ContainsKey("$($typed[1]) $($typed[-1])")) {',
        '        $offered = $choices["$($typed[1]) $($typed[-1])"]',
        "    }",
        "    # With nothing offered, PowerShell completes the names of files.",
        "    elseif (($files -contains $typed[1]) -and -not \"$word\".StartsWith('-')) { $offered = @() }",
        "    else { $offered = $words[$typed[1]] }",
        "    if (-not $offered) { return }",
        '    $offered | Where-Object { $_ -like "$word*" } | ForEach-Object {',
        "        [System.Management.Automation.CompletionResult]::new($_, $_, 'ParameterValue', $_)",
        "    }",
        "}",
    ]
    return "\n".join(lines) + "\n"


def _single(text: str) -> str:
    return "'" + text.replace("'", "'\\''") + "'"


def _quoted(text: str) -> str:
    return "'" + text.replace("'", "''") + "'"
