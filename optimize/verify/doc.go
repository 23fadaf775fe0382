// Package verify recomputes a plan from the catalogue and the printed amounts. It shares
// no code with the packages that find the amounts: it adds up food by food, in stored
// nutrients, and works out portions, steps, helpings and premix its own plain way. What
// both sides take from package nutrients are the rules themselves: the limits and energy
// of an animal, the losses of cooking, and what a concentrate is and how many times a
// minimum it may bring; fixtures/oracle holds those against a second computation.
package verify
