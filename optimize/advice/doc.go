// Package advice looks for what would make plans better: additions to the shelf of one
// pet (Suggest), and changes of the base that everybody eats of (Improve).
package advice
