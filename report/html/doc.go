// Package html writes the pages for a browser. They need no network and no script, and
// carry a policy that forbids both: whatever a name or a note holds, nothing is loaded.
// One file a household, an animal a row that unfolds, so that forty stay a few screens
// of a phone; in print everything is unfolded.
package html
