package ask

import (
	"fmt"
	"path/filepath"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/tomldoc"
)

// Files writes the new household as its two files, with comments for whoever edits
// them.
func (n Household) Files() ([]File, error) {
	base := household.Slug(n.Base)
	if base == "" {
		return nil, diag.BadInput(badAnswer, "what is cooked has no name", `name it with --base "Turkey and oats"`)
	}
	return []File{
		{filepath.Join("bases", base+".toml"), n.BaseTOML()},
		{"household.toml", n.householdTOML(base)},
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

func (n Household) householdTOML(base string) string {
	var b strings.Builder
	b.WriteString("# This file is yours: change it with any editor. bowlwright reads it and never\n# writes it. What the words mean: bowlwright help files\n")
	setting(&b, "name", tomldoc.Quote(n.Name), "")
	setting(&b, "base", tomldoc.Quote(base), "bases/"+base+".toml")
	standard := n.Standard
	if standard == "" {
		standard = "nrc2006"
	}
	setting(&b, "standard", tomldoc.Quote(standard), "nrc2006, fediaf2021 or aafco2016")
	b.WriteString("\n[kitchen]\n")
	setting(&b, "meals", fmt.Sprint(n.Meals), "a day")
	setting(&b, "scale", tomldoc.Quote(n.Scale), "smallest step of the kitchen scale")
	if n.FineScale != "" {
		setting(&b, "fine_scale", tomldoc.Quote(n.FineScale), "smallest step of the powder scale")
	} else {
		b.WriteString("# fine_scale = \"0.01 g\"                 # smallest step of a powder scale, if there is one\n")
	}
	for _, pet := range n.Pets {
		pet.write(&b)
	}
	b.WriteString("\n# What is on the shelf. bowlwright suggest PET tells what is missing.\n")
	if len(n.Shelf) == 0 {
		b.WriteString("# [[addon]]\n# food = \"eggshell-powder\"\n")
	}
	for _, id := range n.Shelf {
		fmt.Fprintf(&b, "\n[[addon]]\nfood = %s\n", tomldoc.Quote(id))
	}
	if n.FineScale != "" && len(n.Pets) > 1 {
		b.WriteString("\n# One premix for all, a jar, with a dose for each: far less to weigh out. Without\n# these lines each pet gets a premix of its own.\n[[jar]]\nname = \"house jar\"\n")
	}
	return b.String()
}

func (pet Pet) write(b *strings.Builder) {
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

// BaseTOML writes the file of the base.
func (n Household) BaseTOML() string {
	var b strings.Builder
	b.WriteString("# One cooked batch. Its code changes with what is cooked, not with how much of it.\n")
	setting(&b, "name", tomldoc.Quote(n.Base), "")
	if n.Yield == "" {
		b.WriteString("# yield   = \"7.9 kg\"                     # weight of the cooked batch, when it was weighed\n")
	} else {
		setting(&b, "yield", tomldoc.Quote(n.Yield), "weight of the cooked batch")
	}
	if n.Liquid != "" {
		setting(&b, "liquid", tomldoc.Quote(n.Liquid), "broth, juices and fat after cooking")
	}
	for _, in := range n.Ingredients {
		b.WriteString("\n[[ingredient]]\n")
		if batch, ok := strings.CutPrefix(in.Food, BatchPrefix); ok {
			setting(&b, "batch", tomldoc.Quote(batch), "another file of bases/")
		} else {
			setting(&b, "food", tomldoc.Quote(in.Food), "")
		}
		setting(&b, "amount", tomldoc.Quote(in.Amount), "")
		if in.Method != "" {
			setting(&b, "method", tomldoc.Quote(in.Method), "how it is cooked from raw")
		}
	}
	return b.String()
}
