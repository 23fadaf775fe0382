// Package weighing turns the exact amounts of package diet into a day that a kitchen can
// measure: whole steps of its scales, whole units, one helping for several days where a
// day's is too little, and a premix of powders. What no scale can weigh is not given.
package weighing
