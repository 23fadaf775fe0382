package records

import (
	"bowlwright/fixtures/sample"
	"bowlwright/household"
)

var testDay = household.NewDate(2026, 11, 25)

const (
	goodHousehold = sample.GoodHousehold
	goodBase      = sample.GoodBase
)

var (
	folder   = sample.Folder
	mustLoad = sample.MustLoad
	testPlan = sample.PlanOf
)
