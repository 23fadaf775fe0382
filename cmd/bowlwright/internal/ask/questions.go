package ask

import (
	"bufio"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"bowlwright/household"
	"bowlwright/household/diag"
	"bowlwright/nutrients"
)

// Interview asks one question after the other.
type Interview struct {
	In    io.Reader
	Out   io.Writer
	Today household.Date
	// Try says what is wrong with the answers so far.
	Try Try
	// made is what was answered so far.
	made  Household
	lines *bufio.Scanner
}

// longestAnswer bounds a line of the standard input.
const longestAnswer = 4096

// mostWrong is how often a question is asked before the interview ends: a file fed
// in by mistake must not be asked for ever.
const mostWrong = 20

// ask asks until the answer passes. An empty answer stands for what is given as
// usual. The check may return the answer in another form.
func (q *Interview) ask(question, usual string, check func(string) (string, error)) (string, error) {
	for range mostWrong {
		fmt.Fprint(q.Out, question)
		if usual != "" {
			fmt.Fprintf(q.Out, " [%s]", usual)
		}
		fmt.Fprint(q.Out, ": ")
		if !q.lines.Scan() {
			fmt.Fprintln(q.Out)
			return "", diag.BadInput(badAnswer, "the answers ended before the questions; nothing is written", "answer again, or give everything as options", "init", "--help")
		}
		answer := strings.Join(strings.Fields(q.lines.Text()), " ")
		if answer == "" {
			answer = usual
		}
		checked, err := check(answer)
		if err == nil {
			return checked, nil
		}
		fmt.Fprintf(q.Out, "  %s", strings.TrimSuffix(err.Error(), "."))
		if hint := answerHint(err); hint != "" {
			fmt.Fprintf(q.Out, ": %s", hint)
		}
		fmt.Fprintln(q.Out)
	}
	return "", diag.BadInput(badAnswer, fmt.Sprintf("no answer fits the question %q; nothing is written", question), "give everything as options", "init", "--help")
}

func something(s string) (string, error) {
	if s == "" {
		return "", fmt.Errorf("please write something")
	}
	return s, nil
}

// oneOf takes a word or its beginning.
func oneOf(words ...string) func(string) (string, error) {
	return func(s string) (string, error) {
		for _, w := range words {
			if s != "" && strings.HasPrefix(w, strings.ToLower(s)) {
				return w, nil
			}
		}
		return "", fmt.Errorf("please write one of: %s", strings.Join(words, ", "))
	}
}

// conditions describes the nine scores of body condition in our own words (common
// practice: the nine-point scale by eye and hand).
var conditions = []string{
	"1  bones stand out from afar, no fat anywhere, muscle is lost",
	"2  ribs, spine and hips are plain to see, hardly any fat",
	"3  ribs are felt with nothing over them, the waist is very narrow",
	"4  ribs are felt at a light touch, the waist is clear from above",
	"5  ribs are felt under a thin cover, waist from above, belly drawn up: ideal",
	"6  ribs are felt under a little too much, the waist is just there",
	"7  ribs are hard to find, hardly a waist, fat at loin and tail",
	"8  ribs are found only by pressing, no waist, the belly is round",
	"9  thick fat over chest, spine and tail, the belly hangs",
}

var activities = map[nutrients.Species]string{
	nutrients.Dog: "low: short walks; moderate: one to three hours a day; high: more, running;\n  working: as a job",
	nutrients.Cat: "low: sleeps indoors; moderate: plays every day; high: roams outdoors",
}

// Household asks for everything that a household needs. What usual holds is offered
// where a question has a usual answer.
func (q *Interview) Household(usual Household) (Household, error) {
	q.lines = bufio.NewScanner(q.In)
	q.lines.Buffer(make([]byte, 0, longestAnswer), longestAnswer)
	q.made = usual
	n := &q.made
	fmt.Fprintf(q.Out, "A few questions. Press return to accept the answer in [brackets].\nNothing is written before the last answer, and then only plain text files:\nyou can correct a mistake in them with any editor.\n\n")
	var err error
	if n.Name, err = q.ask("What is your household called", "Our household", something); err != nil {
		return *n, err
	}
	for {
		pet, more, err := q.pet(len(n.Pets) == 0)
		if err != nil {
			return *n, err
		}
		if !more {
			break
		}
		if err := q.fits(func(h *Household) { h.Pets = append(slices.Clone(h.Pets), pet) }); err != nil {
			fmt.Fprintf(q.Out, "  %s: %s\n  please enter %s again\n", strings.TrimSuffix(err.Error(), "."), answerHint(err), pet.name)
			continue
		}
		n.Pets = append(n.Pets, pet)
	}
	fmt.Fprintln(q.Out)
	if n.Base, err = q.ask("What do you call what you cook for them", "Our base", something); err != nil {
		return *n, err
	}
	if n.Ingredients, err = q.cooked(); err != nil {
		return *n, err
	}
	if n.Shelf, err = q.shelf(); err != nil {
		return *n, err
	}
	err = q.kitchen(n)
	fmt.Fprintln(q.Out)
	return *n, err
}

// pet asks for one animal; more is false when there is none left.
func (q *Interview) pet(first bool) (pet Pet, more bool, err error) {
	question := "Name of the next animal, or return when done"
	if first {
		question = "Name of the first animal"
	}
	fmt.Fprintln(q.Out)
	if pet.name, err = q.ask(question, "", q.unusedName(first)); err != nil || pet.name == "" {
		return pet, false, err
	}
	steps := []struct {
		question, usual string
		into            *string
		check           func(string) (string, error)
	}{
		{"Dog or cat", "", &pet.species, oneOf("dog", "cat")},
		{"What does " + pet.name + " weigh, with the unit, like 8.4 kg or 18 lb", "", &pet.weight, q.petWeight(&pet)},
		{"Born on, as year-month-day or only the year, or return when unknown", "", &pet.born, q.born(&pet)},
		{"Male or female", "", &pet.sex, oneOf("male", "female")},
	}
	for _, s := range steps {
		if *s.into, err = q.ask(s.question, s.usual, s.check); err != nil {
			return pet, false, err
		}
	}
	neutered, err := q.ask("Neutered or spayed", "yes", func(s string) (string, error) {
		if strings.EqualFold(s, "neutered") || strings.EqualFold(s, "spayed") {
			return "yes", nil
		}
		return oneOf("yes", "no")(s)
	})
	if err != nil {
		return pet, false, err
	}
	pet.neutered = neutered == "yes"
	fmt.Fprintf(q.Out, "  %s\n", strings.Join(conditions, "\n  "))
	score, err := q.ask("Which of these is "+pet.name, "5", oneOf("1", "2", "3", "4", "5", "6", "7", "8", "9"))
	if err != nil {
		return pet, false, err
	}
	pet.condition, _ = strconv.Atoi(score)
	fmt.Fprintf(q.Out, "  %s\n", activities[nutrients.Species(pet.species)])
	words := []string{"low", "moderate", "high", "working"}
	if pet.species == string(nutrients.Cat) {
		words = words[:3]
	}
	if pet.activity, err = q.ask("How active", "moderate", oneOf(words...)); err != nil {
		return pet, false, err
	}
	return pet, true, q.stage(&pet)
}

// stage asks for the stage of life and what it needs.
func (q *Interview) stage(pet *Pet) (err error) {
	words := []string{"grown", "growing", "pregnant", "nursing"}
	if pet.sex == "male" {
		words = words[:2]
	}
	answer, err := q.ask("Is "+pet.name+" "+strings.Join(words, ", "), "grown", func(s string) (string, error) {
		if s != "" && strings.HasPrefix("grow", s) {
			return "", fmt.Errorf("grown or growing? please write the word in full")
		}
		return oneOf(words...)(s)
	})
	if err != nil {
		return err
	}
	stage := map[string]nutrients.Stage{"grown": nutrients.Adult, "growing": nutrients.Growth, "pregnant": nutrients.Gestation, "nursing": nutrients.Lactation}[answer]
	pet.stage = string(stage)
	switch stage {
	case nutrients.Growth:
		pet.adultWeight, err = q.ask("What will "+pet.name+" weigh when grown, with the unit", "", q.adultWeight(*pet))
	case nutrients.Gestation:
		pet.week, err = q.number("How many weeks since mating", 1, 10)
	case nutrients.Lactation:
		if pet.week, err = q.number("How many weeks since birth", 1, 10); err == nil {
			pet.litter, err = q.number("How many young", 1, 24)
		}
	}
	return err
}

func (q *Interview) number(question string, least, most int) (int, error) {
	answer, err := q.ask(question, "", func(s string) (string, error) {
		if n, err := strconv.Atoi(s); err != nil || n < least || n > most {
			return "", fmt.Errorf("please write a number from %d to %d", least, most)
		}
		return s, nil
	})
	if err != nil {
		return 0, err
	}
	return strconv.Atoi(answer)
}
