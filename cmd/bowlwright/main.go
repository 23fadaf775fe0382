// Command bowlwright plans small daily add-ons for several pets that eat from one
// cooked base.
//
// # Decisions
//
// A short plan ends with exit code 3, and its card carries a banner; text and object
// have the same exit code.
//
// Hints are data: the program alone puts in the household's folder, where the command
// line had to name it, and the quoting of a shell.
//
// Options stand anywhere: urfave/cli ignores options after an argument; args.go puts
// them in order.
package main

import (
	"io"
	"os"
	"time"
)

// environment is everything the program takes from the outside world. Only main
// fills it with the real one.
type environment struct {
	args           []string
	stdin          io.Reader
	stdout, stderr io.Writer
	now            func() time.Time
	getenv         func(string) string
	workDir        string
	// columns is the width of the terminal, 0 when output is no terminal.
	columns int
	// progress is true when the error output is a terminal.
	progress bool
}

func main() {
	dir, err := os.Getwd()
	if err != nil {
		dir = "."
	}
	os.Exit(run(environment{args: os.Args, stdin: os.Stdin, stdout: os.Stdout, stderr: os.Stderr,
		now: time.Now, getenv: os.Getenv, workDir: dir, columns: terminalColumns(os.Stdout),
		progress: terminalColumns(os.Stderr) > 0}))
}
