package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strconv"

	"bowlwright/household"
	"bowlwright/household/supplies"
	"bowlwright/report/paper"
	"bowlwright/report/text"

	"github.com/urfave/cli/v2"
)

// labelFlags describe a sheet of labels by its dimensions in millimetres.
func labelFlags() []cli.Flag {
	return []cli.Flag{
		&cli.StringFlag{Name: "label-size", Usage: "label size `WIDTHxHEIGHT` in mm, for example 63.5x38.1; as many as fit, centred"},
		&cli.IntFlag{Name: "label-columns", Usage: "`N` labels across"},
		&cli.IntFlag{Name: "label-rows", Usage: "`N` labels down"},
		&cli.StringFlag{Name: "label-left", Usage: "left margin of the sheet in `MM`"},
		&cli.StringFlag{Name: "label-top", Usage: "top margin of the sheet in `MM`"},
		&cli.StringFlag{Name: "label-gap-x", Usage: "horizontal gap between labels in `MM`"},
		&cli.StringFlag{Name: "label-gap-y", Usage: "vertical gap between labels in `MM`"},
		&cli.IntFlag{Name: "label-skip", Usage: "skip the first `N` labels, already used"},
		&cli.BoolFlag{Name: "jars", Usage: "print labels for premix jars too"},
	}
}

// labelOptions are the options about labels that were typed, with their values.
type labelOptions map[string]string

func labelsFrom(c *cli.Context) labelOptions {
	typed := labelOptions{}
	for _, flag := range labelFlags() {
		if name := flag.Names()[0]; c.IsSet(name) {
			typed[name] = fmt.Sprint(c.Value(name))
		}
	}
	return typed
}

// format reads the dimensions of the labels, and refuses them before anything is
// recorded.
func (o labelOptions) format(wanted bool, paperSize string) (paper.LabelFormat, error) {
	f := paper.DefaultLabels
	if !wanted {
		for _, flag := range labelFlags() {
			if name := flag.Names()[0]; o.has(name) {
				return f, badInput("--"+name+" applies to labels only, and none are printed", "type --format labels too, or pdf,labels")
			}
		}
		return f, nil
	}
	if s, typed := o["label-size"]; typed {
		var err error
		if f, err = paper.ParseLabelSize(s); err != nil {
			return f, badInput("--label-size "+err.Error(), "type millimetres with a decimal point: --label-size 63.5x38.1")
		}
	}
	for _, count := range []struct {
		name string
		to   *int
		// least is the least that makes sense.
		least int
	}{{"label-columns", &f.Columns, 1}, {"label-rows", &f.Rows, 1}, {"label-skip", &f.Skip, 0}} {
		if !o.has(count.name) {
			continue
		}
		// The flag parser has taken it as a whole number already.
		*count.to, _ = strconv.Atoi(o[count.name])
		if *count.to < count.least {
			return f, badInput(fmt.Sprintf("--%s %d is out of range", count.name, *count.to), fmt.Sprintf("type a number, %d or more", count.least))
		}
	}
	for _, length := range []struct {
		name string
		to   *float64
	}{{"label-left", &f.LeftMM}, {"label-top", &f.TopMM}, {"label-gap-x", &f.GapXMM}, {"label-gap-y", &f.GapYMM}} {
		if !o.has(length.name) {
			continue
		}
		var err error
		if *length.to, err = millimetres(length.name, o[length.name]); err != nil {
			return f, err
		}
	}
	_, err := f.On(paperSize)
	return f, labelFault(err)
}

func (o labelOptions) has(name string) bool { _, typed := o[name]; return typed }

// labelFault is a fault of the labels as a fault of the options.
func labelFault(err error) error {
	var wrong *paper.LabelFormatError
	if errors.As(err, &wrong) {
		return badInput(wrong.Why, "measure the sheet in millimetres: --label-size, --label-columns, --label-rows, --label-left, --label-top, --label-gap-x, --label-gap-y")
	}
	return err
}

// millimetres reads a length.
func millimetres(option, s string) (float64, error) {
	x, err := paper.ParseMM(s)
	if err != nil {
		return 0, badInput("--"+option+" "+err.Error(), "type it with a decimal point, for example --"+option+" 7.2")
	}
	return x, nil
}

// sheetOrder says which sheets of a batch are written and how.
type sheetOrder struct {
	formats []string
	labels  paper.LabelFormat
	jars    bool
	paper   paper.Options
	// text says that the text is written as a file too.
	text bool
}

// writeSheets writes what was asked for as files and returns their paths.
func writeSheets(p *program, dir string, h *household.Household, batch *supplies.BatchSheet, o sheetOrder) ([]string, error) {
	if dir == "" {
		dir = filepath.Join(h.Dir, "sheets")
	} else {
		dir = p.absolute(dir)
	}
	files, err := sheetFiles(h, batch, o)
	if err != nil || len(files) == 0 {
		return nil, labelFault(err)
	}
	if err := writeFiles(dir, files); err != nil {
		return nil, err
	}
	var paths []string
	for _, f := range files {
		paths = append(paths, filepath.Join(dir, f.name))
	}
	return paths, nil
}

// sheetFiles renders batch sheet and labels; the text is a file only when asked.
func sheetFiles(h *household.Household, batch *supplies.BatchSheet, o sheetOrder) ([]file, error) {
	var files []file
	for _, format := range o.formats {
		name, write := "", func(io.Writer) error { return nil }
		switch format {
		case "text":
			if !o.text {
				continue
			}
			name = "batch-" + h.Base.File + ".txt"
			write = func(w io.Writer) error {
				return text.Batch(w, batch, text.Options{Width: defaultColumns, DecimalComma: o.paper.DecimalComma})
			}
		case "pdf":
			name = "batch-" + h.Base.File + ".pdf"
			write = func(w io.Writer) error { return paper.Batch(w, batch, o.paper) }
		case "labels":
			name = "labels-" + h.Base.File + ".pdf"
			write = func(w io.Writer) error { return paper.Labels(w, batch, o.labels, o.jars, o.paper) }
		}
		var b bytes.Buffer
		if err := write(&b); err != nil {
			return nil, err
		}
		files = append(files, file{name, b.Bytes()})
	}
	return files, nil
}
