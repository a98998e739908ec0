package main

import (
	"bytes"
	"io"
	"strings"

	"github.com/spf13/cobra"
)

// bashOwn are what the script for bash needs where the package bash-completion is not
// loaded: its functions are used where they are. The words are those of the line up to the
// cursor, quotes left in, since the script evaluates them again.
const bashOwn = `
__potlife_words_by_ref()
{
    if declare -F _get_comp_words_by_ref >/dev/null 2>&1; then
        _get_comp_words_by_ref "$@" cur prev words cword
        return
    fi
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

__potlife_filedir()
{
    if declare -F _filedir >/dev/null 2>&1; then
        _filedir "$@"
        return
    fi
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
`

// bashScript writes the script for bash, which needs no package.
func bashScript(root *cobra.Command, out io.Writer) error {
	var script bytes.Buffer
	if err := root.GenBashCompletionV2(&script, true); err != nil {
		return err
	}
	text := strings.NewReplacer(
		`_get_comp_words_by_ref "$@" cur prev words cword`, `__potlife_words_by_ref "$@"`,
		"_filedir", "__potlife_filedir",
	).Replace(script.String())
	_, err := io.WriteString(out, text+bashOwn)
	return err
}
