package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"
	"time"

	"bowlwright/cmd/bowlwright/internal/manual"
	"bowlwright/cmd/bowlwright/internal/shell"
	"bowlwright/cmd/bowlwright/internal/terminal"
	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/reading"
	"bowlwright/household/records"

	"github.com/urfave/cli/v2"
	"golang.org/x/term"
)

// defaultColumns is the width where there is no terminal.
const defaultColumns = 80

// program is one run: its environment and the options that every command takes.
type program struct {
	// env is the outside world; on a terminal its lines are broken at words.
	env environment
	// verbatim is the standard output for what programs read: nothing is broken there.
	verbatim io.Writer
	common
	// dir is what --household said: commands in hints name it again.
	dir string
}

// common is what every command line can say.
type common struct {
	householdDir, day, colorChoice string
	json, quiet                    bool
	// wait is how long a command that writes waits for another one at most.
	wait time.Duration
	// commandName and args are the command that runs and what it was given.
	commandName string
	args        []string
}

// terminalColumns returns the width of the terminal, 0 when f is none.
func terminalColumns(f *os.File) int {
	if !term.IsTerminal(int(f.Fd())) {
		return 0
	}
	columns, _, err := term.GetSize(int(f.Fd()))
	if err != nil || columns <= 0 {
		return defaultColumns
	}
	return columns
}

// run runs the program and returns its exit code.
func run(env environment) int {
	out := &output{to: env.stdout}
	p := &program{env: env, verbatim: out}
	p.env.stdout = out
	rest := func() {}
	if env.columns > 0 {
		lines := &terminal.Folder{To: out, Width: env.columns}
		rest = lines.Rest
		p.env.stdout = lines
	}
	app := p.app()
	args, err := reorder(app, env.args)
	if err == nil {
		err = app.Run(args)
	}
	rest()
	if out.err != nil {
		// Whatever else there was to say, the reader saw only a part of it.
		err = errors.Join(&outputError{out.err}, err)
	}
	if err != nil {
		p.explainError(env.stderr, err, p.columns(), p.colorAllowed(env.args))
	}
	return exitCode(err)
}

func (p *program) columns() int {
	if p.env.columns > 0 {
		return p.env.columns
	}
	return defaultColumns
}

// colorAllowed decides before the options are parsed whether an error may be
// coloured.
func (p *program) colorAllowed(args []string) bool {
	choice := "auto"
	for i, a := range args {
		if v, ok := strings.CutPrefix(a, "--color="); ok {
			choice = v
		} else if a == "--color" && i+1 < len(args) {
			choice = args[i+1]
		}
	}
	return p.color(choice)
}

func (p *program) color(choice string) bool {
	switch choice {
	case "always":
		return true
	case "never":
		return false
	}
	return p.env.columns > 0 && p.env.getenv("NO_COLOR") == "" && p.env.getenv("TERM") != "dumb"
}

// defaultWait is enough for several runs one after the other: each holds the lock for
// some hundredths of a second.
const defaultWait = 5 * time.Second

// globalFlags are taken by every command, before or after its name.
func globalFlags() []cli.Flag {
	return []cli.Flag{
		&cli.StringFlag{Name: "household", Usage: "folder `DIR` that holds household.toml (default: the nearest upwards)"},
		&cli.BoolFlag{Name: "json", Usage: "print one JSON object"},
		&cli.BoolFlag{Name: "quiet", Usage: "print only what was asked for"},
		&cli.StringFlag{Name: "color", Value: "auto", Usage: "`WHEN` to colour: auto, always or never"},
		&cli.DurationFlag{Name: "wait", Value: defaultWait, Usage: "wait at most `TIME` for another run to finish, for example 30s"},
		&cli.StringFlag{Name: "today", Usage: "work as if today were `DATE`, for example 2026-11-25"},
	}
}

func (p *program) app() *cli.App {
	app := &cli.App{
		Name:        "bowlwright",
		Usage:       "one pot, many bowls: small daily add-ons for pets that share a cooked base",
		Version:     versionText(),
		HideVersion: false,
		Writer:      p.env.stdout,
		ErrWriter:   p.env.stderr,
		// A comma is part of what --pet and --ingredient say.
		DisableSliceFlagSeparator: true,
		ExitErrHandler:            func(*cli.Context, error) {},
		OnUsageError:              func(c *cli.Context, err error, _ bool) error { return usageError(c, err) },
		Description: "Begin with the example:   bowlwright demo\nor with your own animals: bowlwright init\n\nExit codes:\n" + strings.Join(manual.ExitCodes, "\n") +
			"\n\nPlans are for healthy animals. A veterinarian decides for growth, pregnancy,\ndisease, and weight loss at body condition 8 or 9.",
		Commands: []*cli.Command{
			demoCommand(p), initCommand(p), planCommand(p), checkCommand(p), dueCommand(p), growthCommand(p), cardCommand(p), cookCommand(p), mixCommand(p), weighCommand(p), targetsCommand(p),
			explainCommand(p), assessCommand(p), compareCommand(p), shopCommand(p), householdsCommand(p), suggestCommand(p), improveCommand(p), foodsCommand(p),
			historyCommand(p), diffCommand(p), restoreCommand(p), checkCodeCommand(p), exportCommand(p), importCommand(p), completionCommand(p), completeCommand(p), helpCommand(p),
		},
		Flags: append(globalFlags(), cli.HelpFlag),
	}
	plainSwitches(app.Flags)
	for _, c := range app.Commands {
		p.prepare(c)
	}
	// The library has no other place for the width of its help.
	cli.HelpPrinter = func(w io.Writer, template string, data any) {
		cli.HelpPrinterCustom(w, template, data, map[string]any{"wrapAt": func() int { return helpColumns }})
	}
	return app
}

// helpColumns is the width of the help pages: wide enough for the table of options,
// narrow enough to read.
const helpColumns = 100

// prepare gives a command the global flags and the short usage error, and has what
// every command takes read before it runs.
func (p *program) prepare(c *cli.Command) {
	c.HideHelpCommand = true
	run := c.Action
	c.Action = func(ctx *cli.Context) error {
		p.common = common{householdDir: ctx.String("household"), day: ctx.String("today"), colorChoice: ctx.String("color"),
			json: ctx.Bool("json"), quiet: ctx.Bool("quiet"), wait: ctx.Duration("wait"), commandName: ctx.Command.FullName(), args: ctx.Args().Slice()}
		return run(ctx)
	}
	c.OnUsageError = func(ctx *cli.Context, err error, _ bool) error { return usageError(ctx, err) }
	for _, sub := range c.Subcommands {
		p.prepare(sub)
	}
	c.Flags = append(c.Flags, globalFlags()...)
	plainSwitches(c.Flags)
}

// plainSwitches keeps "(default: false)" off the help pages: a switch is off when it
// is not there.
func plainSwitches(flags []cli.Flag) {
	for _, f := range flags {
		if b, ok := f.(*cli.BoolFlag); ok {
			b.DisableDefaultText = true
		}
	}
}

// today is the day asked for, or the clock's.
func (p *program) today() (household.Date, error) {
	if s := p.day; s != "" {
		d, err := household.ParseDate(s)
		if err != nil {
			return d, badInput(err.Error(), "type it as --today 2026-11-25")
		}
		return d, nil
	}
	return household.DateOf(p.env.now()), nil
}

// folder finds the household's folder.
func (p *program) folder() (string, error) {
	if dir := p.householdDir; dir != "" {
		if _, err := os.Stat(filepath.Join(p.absolute(dir), householdFile)); errors.Is(err, os.ErrNotExist) {
			return "", &inputError{fmt.Sprintf("there is no household.toml in %s", dir), p.otherFolder()}
		}
		p.dir = dir
		return p.absolute(dir), nil
	}
	dir, ok := reading.FindDir(p.env.workDir)
	if !ok {
		return "", &inputError{"there is no household.toml here or in a folder above", p.otherFolder()}
	}
	return dir, nil
}

const householdFile = "household.toml"

// otherFolder says how to come to a household: by the one below the working folder,
// where there is one.
func (p *program) otherFolder() []diag.Hint {
	found, err := filepath.Glob(filepath.Join(globQuoted(p.env.workDir), "*", householdFile))
	if err != nil || len(found) == 0 {
		return []diag.Hint{diag.Command("begin one with", "init"), diag.Command("or make an example with", "demo")}
	}
	dir := shell.Quote(filepath.Base(filepath.Dir(found[0])))
	return []diag.Hint{{Text: fmt.Sprintf("go into your folder with: cd %s, or add to the command: --household %s", dir, dir)}}
}

// globQuoted takes their meaning from the signs that a pattern of file names knows.
func globQuoted(path string) string {
	return strings.NewReplacer(`[`, `\[`, `?`, `\?`, `*`, `\*`).Replace(path)
}

// command writes a command that can be typed where it is read: it names the household
// again when the command line had to name it.
func (p *program) command(words ...string) string { return p.commandLine(words) }

func (p *program) commandLine(words []string) string {
	line := "bowlwright "
	if p.dir != "" && !strings.HasPrefix(words[0], "-") && !slices.Contains(withoutHousehold, words[0]) {
		line += "--household " + shell.Quote(p.dir) + " "
	}
	return line + shell.Line(words)
}

// withoutHousehold are the commands that read no household.
var withoutHousehold = []string{"demo", "init", "completion", "complete", "help"}

// hint writes a hint as it is read.
func (p *program) hint(h diag.Hint) string { return h.Render(p.commandLine) }

// advice is what a finding says to do, on one line.
func (p *program) advice(f household.Finding) string {
	line := p.hint(f.Hint)
	for _, way := range f.Ways {
		line += "; " + p.hint(way)
	}
	return line
}

// load reads the household; faults in its files are shown, warnings too.
func (p *program) load() (*household.Household, household.Date, error) {
	if choice := p.colorChoice; choice != "auto" && choice != "always" && choice != "never" {
		return nil, household.Date{}, badInput(fmt.Sprintf("--color %q is not known", choice), "type --color auto, --color always or --color never")
	}
	today, err := p.today()
	if err != nil {
		return nil, today, err
	}
	if p.wait < 0 {
		return nil, today, badInput(fmt.Sprintf("--wait %s is negative", p.wait), "type a time such as --wait 30s, or --wait 0s")
	}
	dir, err := p.folder()
	if err != nil {
		return nil, today, err
	}
	h, list, err := reading.Load(dir, today)
	if err != nil {
		return nil, today, err
	}
	if list.HasErrors() {
		return nil, today, &diagnosticsError{list}
	}
	if len(list) > 0 && !p.quiet {
		fmt.Fprint(p.env.stderr, list.Text(p.columns(), p.color(p.colorChoice), p.commandLine))
	}
	folder := records.Open(dir)
	inHand, findings, err := folder.Mixings(today)
	if err != nil {
		return nil, today, err
	}
	h.InHand = inHand
	p.showFindings(findings)
	return h, today, folder.Recall(h)
}

// petsNamed returns the pets that were asked for, all of them when none was.
func petsNamed(h *household.Household, names []string) ([]*household.Pet, error) {
	var pets []*household.Pet
	if len(names) == 0 {
		for i := range h.Pets {
			pets = append(pets, &h.Pets[i])
		}
		return pets, nil
	}
	for _, name := range names {
		pet, err := petNamed(h, name)
		if err != nil {
			return nil, err
		}
		if !slices.Contains(pets, pet) {
			pets = append(pets, pet)
		}
	}
	return pets, nil
}

// version is recorded in every plan.
const version = "0.1"

// versionText is the version with the commit that the program was built from, where the
// build knows it.
func versionText() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return version
	}
	return versionOf(info)
}

// versionOf reads the commit that the go command noted in the build.
func versionOf(info *debug.BuildInfo) string {
	commit, changed := "", ""
	for _, s := range info.Settings {
		switch {
		case s.Key == "vcs.revision":
			commit = s.Value[:min(len(s.Value), commitShown)]
		case s.Key == "vcs.modified" && s.Value == "true":
			changed = ", changed since"
		}
	}
	if commit == "" {
		return version + " (built without a commit)"
	}
	return version + " (commit " + commit + changed + ")"
}

// commitShown is how much of a commit tells it from all others.
const commitShown = 12
