#!/usr/bin/env python3
"""Makes completion for bash and zsh. Usage: completion.py COMMAND OUT

COMMAND is the built command, whose own option texts (`--describe`) are taken. OUT gets `samelight`, which bash-completion loads by that name, and
`_samelight` for a folder of zsh's fpath.
"""
import pathlib
import sys

from described import described

BASH = r'''# bash completion for samelight. Made by tools/packaging/completion.py of the command's own option texts.

# What a command (its words joined by spaces, without the first) offers: its commands, its options, and those that take a value.
_samelight_offers() {
    commands='' options='' valued='' words='' files=no
    case $1 in
@COMMANDS@
    esac
}

# What stands behind an option of a command.
_samelight_values() {
    words='' files=no
    case "$1 $2" in
@VALUES@
    esac
}

_samelight() {
    local commands options valued words files word path='' option='' name i
    # Bash takes words apart at = and :. They are put together again.
    local -a typed=()
    for ((i = 1; i <= COMP_CWORD; ++i)); do
        word=${COMP_WORDS[i]}
        if ((${#typed[@]})) && [[ $word == [=:]* || ${COMP_WORDS[i - 1]} == [=:] ]]; then
            typed[${#typed[@]}-1]+=$word
        else
            typed+=("$word")
        fi
    done
    local current=''
    if ((${#typed[@]})); then
        current=${typed[${#typed[@]}-1]}
        unset 'typed[${#typed[@]}-1]'
    fi
    _samelight_offers ''
    local only_words=no
    for word in "${typed[@]}"; do
        if [[ -n $option ]]; then
            option=''
        elif [[ $word == -- ]]; then
            only_words=yes
        elif [[ $word == -* && $only_words == no ]]; then
            if [[ " $valued " == *" $word "* ]]; then
                option=$word
            fi
        elif [[ " $commands " == *" $word "* ]]; then
            path=${path:+$path }$word
            _samelight_offers "$path"
        fi
    done
    # --OPTION=VALUE in one word.
    local before=''
    if [[ -z $option && $only_words == no && $current == --*=* ]]; then
        name=${current%%=*}
        if [[ " $valued " == *" $name "* ]]; then
            option=$name
            before=$name=
            current=${current#*=}
        fi
    fi
    local -a found=()
    if [[ -n $option ]]; then
        _samelight_values "$path" "$option"
    elif [[ $current == -* && $only_words == no ]]; then
        words=$options files=no
    elif [[ -n $commands ]]; then
        words=$commands files=no
    fi
    while IFS= read -r word; do
        [[ -n $word ]] && found+=("$word")
    done < <(compgen -W "$words" -- "$current")
    if [[ $files == yes ]]; then
        # red=FILE: what stands behind the last = is the file's name.
        local ahead=''
        if [[ $current == *=* ]]; then
            ahead=${current%"${current##*=}"}
        fi
        while IFS= read -r word; do
            [[ -n $word ]] && found+=("$ahead$word")
        done < <(compgen -f -- "${current#"$ahead"}")
        compopt -o filenames 2>/dev/null
    fi
    # Bash replaces what stands behind the last = or : alone.
    local whole=$before$current left=''
    if [[ $whole == *[=:]* && $COMP_WORDBREAKS == *[=:]* ]]; then
        left=${whole%"${whole##*[=:]}"}
    fi
    COMPREPLY=()
    for word in "${found[@]}"; do
        word=$before$word
        COMPREPLY+=("${word#"$left"}")
    done
    if ((${#COMPREPLY[@]} == 1)) && [[ ${COMPREPLY[0]} == *[=:] ]]; then
        compopt -o nospace 2>/dev/null
    fi
}
complete -F _samelight samelight
'''

ZSH_HEAD = "#compdef samelight\n# zsh completion for samelight. Made by tools/packaging/completion.py of the command's own option texts.\n"


def flag(yes):
    return "yes" if yes else "no"


def bash(root):
    cases, values = [], []
    for command in root.walk():
        path = " ".join(command.path[1:])
        named = [option for option in command.options if not option.positional]
        words = [value for option in command.options if option.positional for value in option.values]
        files = any(option.positional and option.takes_files for option in command.options)
        cases.append(f"""        '{path}')
            commands='{" ".join(one.path[-1] for one in command.commands)}'
            options='{" ".join(name for option in named for name in option.names)}'
            valued='{" ".join(name for option in named if option.value for name in option.names)}'
            words='{" ".join(dict.fromkeys(words))}' files={flag(files)} ;;""")
        for option in named:
            if option.value and (option.values or option.takes_files):
                patterns = "|".join(f"'{path} {name}'" for name in option.names)
                values.append(f"""        {patterns}) words='{" ".join(option.values)}' files={flag(option.takes_files)} ;;""")
    return BASH.replace("@COMMANDS@", "\n".join(cases)).replace("@VALUES@", "\n".join(values))


def quoted(text):
    return "'" + text.replace("'", "'\\''") + "'"


def in_brackets(text):
    for c in "\\[]:":
        text = text.replace(c, "\\" + c)
    return text


def zsh_action(option):
    values = " ".join(value.replace(":", "\\:") for value in option.values)
    if option.values and option.takes_files:
        return "{_alternative " + quoted(f"names:name:({values})") + " 'files:file:_files'}"
    if option.values:
        # What goes on behind = or : has no space after it.
        return "{compadd -S '' -- " + values.replace("\\:", ":") + "}" if any(v[-1] in "=:" for v in option.values) else f"({values})"
    return "_files" if option.takes_files else " "


def zsh_specs(command):
    for option in command.options:
        said = in_brackets(option.description)
        if option.positional:
            colon = "*:" if option.repeats else ":" if option.required else "::"
            yield quoted(f"{colon}{option.value}:{zsh_action(option)}")
            continue
        for name in option.names:
            repeat = "*" if option.repeats else ""
            value = f":{option.value}:{zsh_action(option)}" if option.value else ""
            yield quoted(f"{repeat}{name}{'=' if option.value and name.startswith('--') else ''}[{said}]{value}")


def zsh_function(command):
    name = "_" + "_".join(command.path)
    specs = list(zsh_specs(command))
    if not command.commands:
        return "\n".join([f"{name}() {{", "    _arguments -s \\", *(f"        {spec} \\" for spec in specs[:-1]), f"        {specs[-1]}", "}"])
    lines = [f"{name}() {{", "    local context state state_descr line", "    typeset -A opt_args", "    local -a commands=("]
    lines += [f"        {quoted(one.path[-1] + ':' + one.description)}" for one in command.commands]
    lines += ["    )", "    _arguments -s -C \\", *(f"        {spec} \\" for spec in specs), "        '1:command:->command' '*::argument:->argument'",
              "    case $state in", "        command) _describe command commands ;;", "        argument)", "            case $line[1] in"]
    lines += [f"                {one.path[-1]}) {'_' + '_'.join(one.path)} ;;" for one in command.commands]
    return "\n".join([*lines, "            esac ;;", "    esac", "}"])


def zsh(root):
    functions = [zsh_function(command) for command in reversed(list(root.walk()))]
    return "\n\n".join([ZSH_HEAD, *functions, '_samelight "$@"\n'])


def main(program, out):
    root = described(program)
    out = pathlib.Path(out)
    out.mkdir(parents=True, exist_ok=True)
    (out / "samelight").write_text(bash(root), encoding="utf-8")
    (out / "_samelight").write_text(zsh(root), encoding="utf-8")


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    main(*sys.argv[1:])
