// Package foodfile reads foods out of a household's files: which food of the catalogue
// a line names and how much of it, what is refused because it harms, and the
// household's own foods by what their labels say. It writes such a food as a file too.
package foodfile
