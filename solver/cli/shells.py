"""How hardpan and a shell speak while a command line is completed: the scripts, and answers that never complain."""

from __future__ import annotations

import os
import re
from collections import defaultdict
from typing import ClassVar

from click.shell_completion import (
    BashComplete,
    CompletionItem,
    FishComplete,
    ShellComplete,
    ZshComplete,
    add_completion_class,
    split_arg_string,
)

_BASH = """\
%(complete_func)s() {
    local line value
    COMPREPLY=()
    while IFS= read -r line; do
        value=${line#*,}
        case ${line%%%%,*} in
            dir) compopt -o dirnames ;;
            file) compopt -o default ;;
            plain)
                COMPREPLY+=("$value")
                case $value in *=|*/) compopt -o nospace ;; esac
                ;;
        esac
    done < <(COMP_WORD="${COMP_WORDS[COMP_CWORD]}" COMP_WHOLE="$COMP_LINE" COMP_WORDS="${COMP_LINE:0:COMP_POINT}" \\
        %(complete_var)s=bash_complete "$1" 2>/dev/null)
}

complete -o nosort -F %(complete_func)s %(prog_name)s 2>/dev/null || complete -F %(complete_func)s %(prog_name)s
"""

_ZSH = """\
#compdef %(prog_name)s

%(complete_func)s() {
    local -a plain told unfinished response
    local type key descr
    (( ! $+commands[%(prog_name)s] )) && return 1
    response=("${(@f)$(env COMP_WORDS="${words[*]}" COMP_CWORD=$((CURRENT-1)) \\
%(complete_var)s=zsh_complete %(prog_name)s 2>/dev/null)}")
    for type key descr in ${response}; do
        case $type in
            dir) compset -P '--[a-z-]##='; _path_files -/ ;;
            file) compset -P '--[a-z-]##='; _path_files -f ;;
            plain)
                if [[ $key == *[=/] ]]; then
                    unfinished+=("$key")
                elif [[ $descr == _ ]]; then
                    plain+=("$key")
                else
                    told+=("$key:$descr")
                fi
                ;;
        esac
    done
    (( $#told )) && _describe -V unsorted told -U
    (( $#plain )) && compadd -U -V unsorted -a plain
    (( $#unfinished )) && compadd -U -S '' -V unfinished -a unfinished
}

if [[ $zsh_eval_context[-1] == loadautofunc ]]; then
    %(complete_func)s "$@"
else
    compdef %(complete_func)s %(prog_name)s
fi
"""

_FISH = """\
function %(complete_func)s
    for line in (env %(complete_var)s=fish_complete COMP_WORDS=(commandline -cp) \\
        COMP_CWORD=(commandline -t) COMP_WHOLE=(commandline -p) %(prog_name)s 2>/dev/null)
        set -l answer (string split -m 1 "," -- $line)
        switch $answer[1]
            case dir
                __fish_complete_directories $answer[2]
            case file
                __fish_complete_path $answer[2]
            case plain
                echo $answer[2]
        end
    end
end

complete --no-files --command %(prog_name)s --arguments "(%(complete_func)s)"
"""

_SPECIAL = defaultdict(lambda: re.compile(r"[^\w./=+:@%,-]"), {"'": re.compile(r"(?!)"), '"': re.compile(r'["\\$`]')})
"""What is escaped for bash: by the quote with which the word begins, or without one."""


class _Quiet(ShellComplete):
    """Answers a shell; where the line cannot be understood, it offers nothing."""

    def complete(self) -> str:
        """What to offer, a line each."""
        try:
            return super().complete()
        except (Exception, SystemExit, KeyboardInterrupt):
            return ""

    def source(self) -> str:
        """The script for the shell."""
        return ShellComplete.source(self)


class Bash(_Quiet, BashComplete):
    """Bash splits a word at = and :, and takes what is offered as it is, so it gets the last piece, escaped."""

    source_template: ClassVar[str] = _BASH

    def get_completion_args(self) -> tuple[list[str], str]:
        """The words in front of the cursor, and the one that it is in."""
        line = os.environ["COMP_WORDS"]
        words = split_arg_string(line)[1:]
        inside = words and not re.search(r"(?<!\\)\s$", line)
        return (words[:-1], words[-1]) if inside else (words, "")

    def get_completions(self, args: list[str], incomplete: str) -> list[CompletionItem[str]]:
        """What to offer, without what stands in front of the piece that bash has in hand."""
        found = super().get_completions(args, incomplete)
        typed = incomplete.partition("=")[2] if incomplete.startswith("-") else incomplete
        piece = split_arg_string(os.environ.get("COMP_WORD", "").lstrip("=:"))
        done = len(typed) - len("".join(piece)) if typed.endswith("".join(piece)) else 0
        return [CompletionItem(item.value[done:], item.type) if item.type == "plain" else item for item in found]

    def format_completion(self, item: CompletionItem[str]) -> str:
        """The kind of a word, and the word as it is typed."""
        special = _SPECIAL[os.environ.get("COMP_WORD", "")[:1]]
        return f"{item.type},{special.sub(_escaped, item.value)}"


def _escaped(found: re.Match[str]) -> str:
    return f"\\{found.group()}"


class _Whole(_Quiet):
    """A shell that takes an option, = and a value as one word, and quotes what it is offered by itself."""

    def get_completions(self, args: list[str], incomplete: str) -> list[CompletionItem[str]]:
        """What to offer, with what stands in front of it in the same word."""
        option, sign, _ = incomplete.partition("=")
        found = super().get_completions(args, incomplete)
        if not (sign and option.startswith("-")):
            return found
        return [CompletionItem(f"{option}={item.value}", item.type, item.help) for item in found]


class Zsh(_Whole, ZshComplete):
    """Answers zsh."""

    source_template: ClassVar[str] = _ZSH


class Fish(_Whole, FishComplete):
    """Answers fish."""

    source_template: ClassVar[str] = _FISH


SHELLS: dict[str, type[_Quiet]] = {"bash": Bash, "zsh": Zsh, "fish": Fish}


def register() -> None:
    """Let click answer shells in these ways."""
    for name, shell in SHELLS.items():
        add_completion_class(shell, name)
