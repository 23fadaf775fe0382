package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"
)

// completionScripts ask the program itself what may follow, so that they never need
// to be renewed.
var completionScripts = map[string]string{
	"bash": `# Completion of bowlwright for bash. Load it with:
#   source <(bowlwright completion bash)
_bowlwright() {
	local word about cur=${COMP_WORDS[COMP_CWORD]}
	COMPREPLY=()
	while IFS=$'\t' read -r word about; do
		case $cur in
		\"* | \'*) COMPREPLY+=("$word") ;;
		*) COMPREPLY+=("$(printf '%q' "$word")") ;;
		esac
	done < <("${COMP_WORDS[0]}" complete -- "${COMP_WORDS[@]:1:COMP_CWORD}" 2>/dev/null)
}
complete -o default -F _bowlwright bowlwright
`,
	"zsh": `#compdef bowlwright
# Completion of bowlwright for zsh. Load it with:
#   source <(bowlwright completion zsh)
_bowlwright() {
	local word about
	local -a found
	while IFS=$'\t' read -r word about; do
		found+=("${word//:/\\:}:$about")
	done < <(${words[1]} complete -- "${(@Q)words[2,CURRENT]}" 2>/dev/null)
	if (( $#found )); then
		_describe -V bowlwright found
	else
		_files
	fi
}
(( $+functions[compdef] )) && compdef _bowlwright bowlwright
`,
	"fish": `# Completion of bowlwright for fish. Load it with:
#   bowlwright completion fish | source
function __bowlwright_words
	set -l before (commandline -opc)
	$before[1] complete -- $before[2..] (commandline -ct) 2>/dev/null
end
complete -c bowlwright -f -a '(__bowlwright_words)'
complete -c bowlwright -n '__fish_seen_subcommand_from import' -F
`,
}

func shells() []string { return []string{"bash", "zsh", "fish"} }

func completionCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "completion", Usage: "print the script that lets a shell complete commands, pets and foods", ArgsUsage: strings.Join(shells(), "|"),
		Description: "For bash: source <(bowlwright completion bash)\nFor zsh:  source <(bowlwright completion zsh)\nFor fish: bowlwright completion fish | source",
		Action: func(c *cli.Context) error {
			if err := p.noMore(1); err != nil {
				return err
			}
			shell := c.Args().First()
			if shell == "" {
				return badInput("completion takes the name of a shell", "name bash, zsh or fish; how to load it", "completion", "--help")
			}
			if !slices.Contains(shells(), shell) {
				return badInput(fmt.Sprintf("there is no completion for the shell %q", shell), "known are bash, zsh and fish", "completion", "bash")
			}
			if p.json {
				return p.printJSON(map[string]string{"format": "bowlwright/completion/1", "shell": shell, "script": completionScripts[shell]})
			}
			_, err := fmt.Fprint(p.verbatim, completionScripts[shell])
			return err
		},
	}
}
