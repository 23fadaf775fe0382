package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"bowlwright/household"
	"bowlwright/household/tomldoc"
)

// files writes the new household as its two files, with comments for whoever edits
// them.
func (n newHousehold) files() ([]file, error) {
	base := household.Slug(n.base)
	if base == "" {
		return nil, badInput("what is cooked has no name", `name it with --base "Turkey and oats"`)
	}
	return []file{
		{filepath.Join("bases", base+".toml"), []byte(n.baseTOML())},
		{"household.toml", []byte(n.householdTOML(base))},
	}, nil
}

// setting is one line with a comment.
func setting(b *strings.Builder, key, value, comment string) {
	line := fmt.Sprintf("%-9s = %s", key, value)
	if comment != "" {
		line = fmt.Sprintf("%-40s # %s", line, comment)
	}
	b.WriteString(line + "\n")
}

func (n newHousehold) householdTOML(base string) string {
	var b strings.Builder
	b.WriteString("# This file is yours: change it with any editor. bowlwright reads it and never\n# writes it. What the words mean: bowlwright help files\n")
	setting(&b, "name", tomldoc.Quote(n.name), "")
	setting(&b, "base", tomldoc.Quote(base), "bases/"+base+".toml")
	standard := n.standard
	if standard == "" {
		standard = "nrc2006"
	}
	setting(&b, "standard", tomldoc.Quote(standard), "nrc2006, fediaf2021 or aafco2016")
	b.WriteString("\n[kitchen]\n")
	setting(&b, "meals", fmt.Sprint(n.meals), "a day")
	setting(&b, "scale", tomldoc.Quote(n.scale), "smallest step of the kitchen scale")
	if n.fineScale != "" {
		setting(&b, "fine_scale", tomldoc.Quote(n.fineScale), "smallest step of the powder scale")
	} else {
		b.WriteString("# fine_scale = \"0.01 g\"                 # smallest step of a powder scale, if there is one\n")
	}
	for _, pet := range n.pets {
		pet.write(&b)
	}
	b.WriteString("\n# What is on the shelf. bowlwright suggest PET tells what is missing.\n")
	if len(n.shelf) == 0 {
		b.WriteString("# [[addon]]\n# food = \"eggshell-powder\"\n")
	}
	for _, id := range n.shelf {
		fmt.Fprintf(&b, "\n[[addon]]\nfood = %s\n", tomldoc.Quote(id))
	}
	return b.String()
}

func (pet newPet) write(b *strings.Builder) {
	b.WriteString("\n[[pet]]\n")
	setting(b, "name", tomldoc.Quote(pet.name), "")
	setting(b, "species", tomldoc.Quote(pet.species), "")
	if pet.born != "" {
		about := ""
		if pet.bornAbout {
			about = "about: the day is not known"
		}
		setting(b, "born", pet.born, about)
	}
	if pet.sex != "" {
		setting(b, "sex", tomldoc.Quote(pet.sex), "")
	}
	setting(b, "neutered", fmt.Sprint(pet.neutered), "")
	setting(b, "weight", tomldoc.Quote(pet.weight), "a later entry of bowlwright weigh wins")
	if pet.condition > 0 {
		setting(b, "condition", fmt.Sprint(pet.condition), "1 starved, 5 ideal, 9 obese")
	}
	if pet.activity != "" {
		setting(b, "activity", tomldoc.Quote(pet.activity), "low, moderate, high, working")
	}
	if pet.stage != "" {
		setting(b, "stage", tomldoc.Quote(pet.stage), "adult, growth, gestation, lactation")
	}
	if pet.adultWeight != "" {
		setting(b, "adult_weight", tomldoc.Quote(pet.adultWeight), "expected when grown")
	}
	if pet.week > 0 {
		setting(b, "week", fmt.Sprint(pet.week), "since mating or birth")
	}
	if pet.litter > 0 {
		setting(b, "litter", fmt.Sprint(pet.litter), "")
	}
}

func (n newHousehold) baseTOML() string {
	var b strings.Builder
	b.WriteString("# One cooked batch. Its code changes with what is cooked, not with how much of it.\n")
	setting(&b, "name", tomldoc.Quote(n.base), "")
	if n.yield == "" {
		b.WriteString("# yield   = \"7.9 kg\"                     # weight of the cooked batch, when it was weighed\n")
	} else {
		setting(&b, "yield", tomldoc.Quote(n.yield), "weight of the cooked batch")
	}
	if n.liquid != "" {
		setting(&b, "liquid", tomldoc.Quote(n.liquid), "broth, juices and fat after cooking")
	}
	for _, in := range n.ingredients {
		b.WriteString("\n[[ingredient]]\n")
		if batch, ok := strings.CutPrefix(in.food, batchPrefix); ok {
			setting(&b, "batch", tomldoc.Quote(batch), "another file of bases/")
		} else {
			setting(&b, "food", tomldoc.Quote(in.food), "")
		}
		setting(&b, "amount", tomldoc.Quote(in.amount), "")
		if in.method != "" {
			setting(&b, "method", tomldoc.Quote(in.method), "how it is cooked from raw")
		}
	}
	return b.String()
}
