package main

import (
	"io"

	"github.com/spf13/cobra"
)

// bashOwn are the two functions of the package bash-completion that the script for bash
// calls, for a shell in which that is not loaded; where it is loaded later, its own take
// their place. The words are those of the line up to the cursor, quotes left in, since the
// script evaluates them again.
const bashOwn = `
if ! declare -F _get_comp_words_by_ref >/dev/null 2>&1; then
    _get_comp_words_by_ref()
    {
        local line=${COMP_LINE:0:COMP_POINT}
        read -r -a words <<<"$line"
        if [[ $line == *[[:space:]] ]]; then
            words+=("")
        fi
        cword=$((${#words[@]} - 1))
        cur=${words[cword]}
        prev=""
        if ((cword > 0)); then
            prev=${words[cword - 1]}
        fi
    }
fi

if ! declare -F _filedir >/dev/null 2>&1; then
    _filedir()
    {
        local name
        while IFS= read -r name; do
            if [[ -d $name || $# -eq 0 || "|${1-}" == *"|${name##*.}|"* ]]; then
                COMPREPLY+=("$name")
            fi
        done < <(compgen -f -- "$cur")
        if [[ $(type -t compopt) == builtin ]]; then
            compopt -o filenames
        fi
    }
fi
`

// bashScript writes the script for bash, which needs no package.
func bashScript(root *cobra.Command, out io.Writer) error {
	if err := root.GenBashCompletionV2(out, true); err != nil {
		return err
	}
	_, err := io.WriteString(out, bashOwn)
	return err
}
