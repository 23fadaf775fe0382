// Package optimize turns a household into numbers and the answer back into a
// plan. It knows no files, no terminal and no paper.
package optimize
