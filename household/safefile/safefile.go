// Package safefile writes files so that a crash leaves the old state or the new
// one, and locks a folder so that two runs do not write at once.
package safefile
