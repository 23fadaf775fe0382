package household

// Records is the records/ folder of a household.
type Records struct{ dir string }

// OpenRecords returns the records of a household folder. Nothing is created
// until something is written.
func OpenRecords(householdDir string) *Records { return &Records{dir: householdDir} }

// PlanRecord is a plan on disk.
type PlanRecord struct {
	// Ref is the name under which `restore` and `diff` know it.
	Ref  string
	Path string
	Plan *Plan
	// Seq orders records; a later record has a higher one.
	Seq int
}

// SavePlans writes plans as new records, all or none, under the lock.
func (r *Records) SavePlans(plans []*Plan) ([]PlanRecord, error) {
	panic("household: SavePlans is being built")
}

// Plans returns all plan records in order, and a finding for each file that was
// edited, cut off, or comes from a newer program.
func (r *Records) Plans() ([]PlanRecord, []Finding, error) {
	panic("household: Plans is being built")
}

// InUse returns the newest plan of each pet, keyed by pet name.
func (r *Records) InUse() (map[string]PlanRecord, []Finding, error) {
	panic("household: InUse is being built")
}

// Severity of a finding.
type Severity string

// The severities: Refusal means that base and add-on do not belong together.
const (
	Refusal Severity = "refusal"
	Problem Severity = "problem"
	Stale   Severity = "stale"
	Notice  Severity = "notice"
)

// Finding is one thing that `check` has to say.
type Finding struct {
	Pet string `json:"pet"`
	// Code is stable and kebab-case: "other-base", "weight-moved", ...
	Code     string   `json:"code"`
	Severity Severity `json:"severity"`
	Message  string   `json:"message"`
	Hint     string   `json:"hint"`
}
