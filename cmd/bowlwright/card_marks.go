package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"bowlwright/household"
)

// markPrefix begins the name of a card that was printed once and must not be fed by: of
// an animal whose plan was refused since.
const markPrefix = "not-in-use-"

// cardNames are the files that hold one animal's cards, by its slug.
func cardNames(slug string) []string {
	return []string{"card-" + slug + ".pdf", "card-" + slug + ".txt", "vet-" + slug + ".pdf", "pet-" + slug + ".html"}
}

// markCards renames the old cards of animals that get none now, and the files that hold
// them with others, so that nobody takes them for the cards in use. What was written just
// now stays, and takes away its own mark.
func markCards(p *program, dir string, d *deck, written []file) error {
	if info, err := os.Lstat(dir); err != nil || !info.IsDir() {
		return nil
	}
	for _, f := range written {
		_ = os.Remove(filepath.Join(dir, markPrefix+f.name))
	}
	without := slices.Clone(d.refused)
	for _, m := range d.missing {
		without = append(without, m.Pet)
	}
	if len(without) == 0 {
		return nil
	}
	var names []string
	for _, pet := range without {
		names = append(names, cardNames(household.Slug(pet))...)
	}
	marked, err := mark(dir, names, written)
	if err == nil && (marked > 0 || len(d.refused) > 0) {
		var joined int
		joined, err = mark(dir, []string{joinedCards, "index.html"}, written)
		marked += joined
	}
	if err != nil {
		return err
	}
	if marked > 0 {
		fmt.Fprintf(p.env.stderr, "note: the old cards of %s in %s are not to be used; their names begin with %s now\n", someOf(without), p.shortPath(dir), markPrefix)
	}
	return nil
}

// mark renames those files that are there and were not written just now.
func mark(dir string, names []string, written []file) (marked int, err error) {
	for _, name := range names {
		if slices.ContainsFunc(written, func(f file) bool { return f.name == name }) {
			continue
		}
		err := os.Rename(filepath.Join(dir, name), filepath.Join(dir, markPrefix+name))
		switch {
		case err == nil:
			marked++
		case !errors.Is(err, fs.ErrNotExist):
			return marked, fmt.Errorf("cannot mark the old card %s: %w", name, err)
		}
	}
	return marked, nil
}
