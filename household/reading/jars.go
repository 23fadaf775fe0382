package reading

import (
	"fmt"
	"slices"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/household/tomldoc"
)

// mostJarPets is for how many pets one jar is composed: beyond, the program grows past
// what it was measured for (common practice: nobody weighs so many doses from one jar).
const mostJarPets = 40

func tooManyForJar(n int) string {
	return fmt.Sprintf("%d pets are too many for one jar: at most %d", n, mostJarPets)
}

// readJars reads every [[jar]]. A pet eats from one jar; a jar that names no pets is for
// everybody who is in no other.
func (l *loader) readJars(t tomldoc.Table) {
	h := l.home
	taken := map[string]string{}
	var open []int
	var tables []tomldoc.Table
	for _, jt := range t.Many("jar") {
		jt.Only("name", "pets", "rate", "days", "scale", "scoop")
		j := household.JarSpec{Days: h.Kitchen.PremixDays}
		j.Name = l.readJarName(jt)
		if n, ok := jt.WholeNumber("days", 1, household.MaxPremixDays, "write for how many days the jar is mixed"); ok {
			j.Days = n
		}
		j.StepG = readStep(jt, "scale", 0)
		rate, _ := jt.Choice("rate", "per pet", "per base")
		if j.PerBase = rate == "per base"; j.PerBase && jt.Has("scoop") {
			jt.Fault("scoop", "rate-and-scoop", "a rate for every bowl and whole scoops do not go together", "keep one of the two lines")
		}
		j.ScoopG = readStep(jt, "scoop", 0)
		words, at := jt.List("pets")
		for i, w := range words {
			p, ok := h.Pet(w)
			_, away := h.AwayPet(w)
			switch {
			case away:
			case !ok:
				jt.Doc.Add("unknown-pet", at[i], fmt.Sprintf("no pet is named %q", diag.Clip(w)), diag.NearHint(w, h.PetNames()))
			case taken[p.Name] != "":
				jt.Doc.Add("jar-twice", at[i], fmt.Sprintf("%s already eats from %s", p.Name, taken[p.Name]), "a pet eats from one jar: take the name out of one of them")
			default:
				taken[p.Name] = j.Name
				j.Pets = append(j.Pets, p.Name)
			}
		}
		if !jt.Has("pets") {
			open = append(open, len(h.Jars))
		} else if len(j.Pets) > mostJarPets {
			jt.Fault("pets", "jar-too-many", tooManyForJar(len(j.Pets)), "divide them among several jars, by species and age for example")
		}
		h.Jars, tables = append(h.Jars, j), append(tables, jt)
	}
	for n, k := range open {
		if n > 0 {
			tables[k].Missing("pets", "two jars are for everybody in no other jar", "name the pets of one of them: pets = [\"…\"]")
			continue
		}
		for _, name := range h.PetNames() {
			if taken[name] == "" {
				h.Jars[k].Pets = append(h.Jars[k].Pets, name)
			}
		}
		if n := len(h.Jars[k].Pets); n > mostJarPets {
			tables[k].Missing("pets", tooManyForJar(n), "name the pets of each jar: pets = [\"…\"], by species and age for example")
		}
		if len(h.Jars[k].Pets) == 0 && len(h.Pets) > 0 {
			tables[k].Missing("pets", "nobody is left for this jar: every pet is in another", "take the jar out, or name its pets")
		}
	}
}

// readJarName reads the name of a jar, which no other jar and no pet has: `mix` takes
// either.
func (l *loader) readJarName(t tomldoc.Table) string {
	name, ok := t.Text("name")
	if !ok {
		if !t.Has("name") {
			t.Missing("name", "a jar needs a name", "write name = \"house jar\"")
		}
		return ""
	}
	name = strings.Join(strings.Fields(name), " ")
	if slices.ContainsFunc(l.home.Jars, func(j household.JarSpec) bool { return household.Slug(j.Name) == household.Slug(name) }) {
		t.Fault("name", "jar-twice", fmt.Sprintf("two jars are named %q", name), "give one of them another name")
	}
	if _, pet := l.home.Pet(name); pet {
		t.Fault("name", "jar-named-as-pet", fmt.Sprintf("a pet is named %q too", name), "give the jar a name that no pet has")
	}
	return name
}
