// Package html writes the pages for a browser. They need no network and no script, and
// carry a policy that forbids both.
package html
