package shell

// Completion are the scripts that let a shell complete a command line. They ask the program itself what may follow, so that they never need
// to be renewed.
var Completion = map[string]string{
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

// Shells are those for which there is a script.
func Shells() []string { return []string{"bash", "zsh", "fish"} }
