package main

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"bowlwright/cmd/bowlwright/internal/manual"
	"bowlwright/cmd/bowlwright/internal/shell"
	"bowlwright/household"
	"bowlwright/household/reading"
	"bowlwright/household/records"
	"bowlwright/nutrients"

	"github.com/urfave/cli/v2"
)

// candidate is a word that may stand where the cursor is.
type candidate struct{ word, about string }

// completeCommand answers the shells' scripts: it prints what may stand in place of
// the last word, one a line, a tab and a few words about it. It never fails: who
// cannot be helped gets nothing.
func completeCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "complete", Hidden: true, Usage: "print what may stand at the end of a command line", ArgsUsage: "-- WORDS",
		Action: func(c *cli.Context) error {
			for _, w := range completions(p, c.Args().Slice()) {
				fmt.Fprintf(p.verbatim, "%s\t%s\n", w.word, w.about)
			}
			return nil
		},
	}
}

// typed is a command line up to the cursor, understood as far as it goes.
type typed struct {
	path []string
	args []string
	// option is the one whose value is being typed, without dashes.
	option string
	// household is the value of --household.
	household string
	current   string
	commands  []*cli.Command
	flags     []cli.Flag
}

// understand walks the words before the cursor.
func understand(p *program, words []string) typed {
	app := p.app()
	t := typed{commands: app.Commands, flags: app.Flags}
	words = slices.DeleteFunc(slices.Clone(words), func(w string) bool { return w == "=" })
	if len(words) == 0 {
		return t
	}
	t.current = unquoted(words[len(words)-1])
	options := true
	for _, w := range words[:len(words)-1] {
		w = unquoted(w)
		if t.option != "" {
			if t.option == "household" {
				t.household = w
			}
			t.option = ""
			continue
		}
		if w == "--" {
			options = false
			continue
		}
		if options && strings.HasPrefix(w, "-") && !isNumber(w) {
			name, value, inline := strings.Cut(strings.TrimLeft(w, "-"), "=")
			if inline && name == "household" {
				t.household = value
			}
			if !inline && flagTable(append(t.flags, globalFlags()...))[name] {
				t.option = name
			}
			continue
		}
		if c := findCommand(t.commands, w); c != nil && len(t.args) == 0 {
			t.path, t.commands, t.flags = append(t.path, c.Name), c.Subcommands, c.Flags
			continue
		}
		t.args = append(t.args, w)
	}
	return t
}

// unquoted takes off what a shell adds to a word: bash hands over the text as typed.
func unquoted(w string) string {
	if w != "" && (w[0] == '"' || w[0] == '\'') {
		return strings.Trim(w, w[:1])
	}
	return strings.ReplaceAll(w, `\`, "")
}

func completions(p *program, words []string) []candidate {
	t := understand(p, words)
	var all []candidate
	switch {
	case t.option != "":
		all = optionValues(p, t)
	case strings.HasPrefix(t.current, "-"):
		for _, f := range append(slices.Clone(t.flags), globalFlags()...) {
			about := ""
			if d, ok := f.(cli.DocGenerationFlag); ok {
				about = strings.ReplaceAll(d.GetUsage(), "`", "")
			}
			all = append(all, candidate{"--" + f.Names()[0], about})
		}
	case len(t.commands) > 0 && len(t.args) == 0:
		for _, c := range t.commands {
			if !c.Hidden {
				all = append(all, candidate{c.Name, c.Usage})
			}
		}
	default:
		all = argumentsFor(p, t)
	}
	var fitting []candidate
	for _, c := range all {
		known := slices.ContainsFunc(fitting, func(o candidate) bool { return o.word == c.word })
		if !known && strings.HasPrefix(strings.ToLower(c.word), strings.ToLower(t.current)) {
			fitting = append(fitting, c)
		}
	}
	return fitting
}

func plainWords(words ...string) []candidate {
	var all []candidate
	for _, w := range words {
		all = append(all, candidate{w, ""})
	}
	return all
}

// optionValues lists what an option takes, where that is a list.
func optionValues(p *program, t typed) []candidate {
	switch t.option {
	case "color":
		return plainWords("auto", "always", "never")
	case "paper":
		return plainWords("a4", "letter")
	case "format":
		if slices.Equal(t.path, []string{"cook"}) || slices.Equal(t.path, []string{"mix"}) {
			return plainWords("text", "pdf", "labels")
		}
		return plainWords("pdf", "html", "text", "vet")
	case "standard":
		var all []candidate
		for _, id := range nutrients.Standards() {
			all = append(all, candidate{string(id), ""})
		}
		return all
	case "addon":
		return foodCandidates(nutrients.Default())
	}
	return nil
}

func foodCandidates(cat *nutrients.Catalogue) []candidate {
	var all []candidate
	for _, f := range cat.All() {
		all = append(all, candidate{f.ID, f.Name})
	}
	return all
}

// argumentsFor lists what a command takes at this place.
func argumentsFor(p *program, t typed) []candidate {
	command := strings.Join(t.path, " ")
	switch command {
	case "help":
		var all []candidate
		for _, topic := range manual.Topics() {
			all = append(all, candidate{topic.Name, topic.About})
		}
		for _, c := range p.app().Commands {
			if !c.Hidden && c.Name != "help" {
				all = append(all, candidate{c.Name, c.Usage})
			}
		}
		return all
	case "export":
		if len(t.args) == 0 {
			return plainWords(exported...)
		}
	case "completion":
		return plainWords(shell.Shells()...)
	case "foods show", "foods find":
		if h := householdFor(p, t); h != nil {
			return foodCandidates(h.Catalogue)
		}
		return foodCandidates(nutrients.Default())
	}
	h := householdFor(p, t)
	if h == nil {
		return nil
	}
	switch command {
	case "plan", "card", "export":
		return slices.DeleteFunc(pets(h), func(c candidate) bool {
			return slices.ContainsFunc(t.args, func(a string) bool { return strings.EqualFold(a, c.word) })
		})
	case "weigh", "targets", "suggest", "history":
		if len(t.args) == 0 {
			return pets(h)
		}
	case "explain":
		if len(t.args) == 0 {
			return pets(h)
		}
		if pet, ok := h.Pet(t.args[0]); ok && len(t.args) == 1 {
			return nutrientsOf(pet)
		}
	case "restore":
		return append(recordCandidates(h), codes(h)...)
	case "diff":
		return append(append(pets(h), bases(h)...), recordCandidates(h)...)
	case "check-code":
		return codes(h)
	case "mix":
		if len(t.args) == 0 {
			return append(jarNames(h), pets(h)...)
		}
	}
	return nil
}

// householdFor loads the household of a command line, nil when there is none that
// can be read.
func householdFor(p *program, t typed) *household.Household {
	dir, ok := t.household, true
	if dir == "" {
		dir, ok = reading.FindDir(p.env.workDir)
	} else if !filepath.IsAbs(dir) {
		dir = filepath.Join(p.env.workDir, dir)
	}
	if !ok {
		return nil
	}
	h, list, err := reading.Load(dir, household.DateOf(p.env.now()))
	if err != nil || list.HasErrors() {
		return nil
	}
	return h
}

func pets(h *household.Household) []candidate {
	var all []candidate
	for _, pet := range h.Pets {
		all = append(all, candidate{pet.Name, fmt.Sprintf("%s, %.4g kg", pet.Animal.Species, pet.Animal.WeightKg)})
	}
	return all
}

func nutrientsOf(pet *household.Pet) []candidate {
	t, err := nutrients.TargetsFor(pet.Animal)
	if err != nil {
		return nil
	}
	var all []candidate
	for _, l := range t.Limits {
		all = append(all, candidate{l.Nutrient.String(), l.Nutrient.Info().Name})
	}
	return all
}

func bases(h *household.Household) []candidate {
	var all []candidate
	for name, b := range h.Batches {
		all = append(all, candidate{name, b.Name})
	}
	slices.SortFunc(all, func(a, b candidate) int { return strings.Compare(a.word, b.word) })
	return all
}

func codes(h *household.Household) []candidate {
	var all []candidate
	for _, b := range bases(h) {
		all = append(all, candidate{h.Batches[b.word].Identity().Code, b.about})
	}
	return all
}

func recordCandidates(h *household.Household) []candidate {
	entries, _, err := records.Open(h.Dir).History("")
	if err != nil {
		return nil
	}
	var all []candidate
	for _, e := range entries {
		if e.Kind == records.KindPlan {
			all = append(all, candidate{e.Ref, e.Date.String()})
		}
	}
	return all
}

func jarNames(h *household.Household) []candidate {
	var all []candidate
	for _, j := range h.Jars {
		all = append(all, candidate{j.Name, "for " + listed(j.Pets)})
	}
	return all
}

func completionCommand(p *program) *cli.Command {
	return &cli.Command{
		Name: "completion", Usage: "print the script that lets a shell complete commands, pets and foods", ArgsUsage: strings.Join(shell.Shells(), "|"),
		Description: "For bash: source <(bowlwright completion bash)\nFor zsh:  source <(bowlwright completion zsh)\nFor fish: bowlwright completion fish | source",
		Action: func(c *cli.Context) error {
			if err := p.noMore(1); err != nil {
				return err
			}
			name := c.Args().First()
			if name == "" {
				return badInput("completion takes the name of a shell", "name bash, zsh or fish; how to load it", "completion", "--help")
			}
			if !slices.Contains(shell.Shells(), name) {
				return badInput(fmt.Sprintf("there is no completion for the shell %q", name), "known are bash, zsh and fish", "completion", "bash")
			}
			if p.json {
				return p.printJSON(map[string]string{"format": "bowlwright/completion/1", "shell": name, "script": shell.Completion[name]})
			}
			_, err := fmt.Fprint(p.verbatim, shell.Completion[name])
			return err
		},
	}
}
