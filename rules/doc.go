// Package rules holds the timing of queen rearing as pure functions: facts of
// one subject in, windows, tasks and pings out.
//
// It decides when each step of a round opens, is best done and closes, how old
// the larvae on a comb are, when the first virgin may be out, which pings a
// task deserves and whether a ping that is due may go out now; and, for the weeks
// ahead, what the crew's counts say of its yields, how many to graft for an order,
// in which rounds, and whether builders, nucs and breeders are there for it. The authority
// for every figure is steps.csv and the constants beside their sources.
//
// It never reads a clock, a file, a database or the network: time comes in as
// an argument and goes out as a value. It imports the standard library and
// gonum only. It says no sentence to the crew either; a Refusal carries a code
// and its figures, and package bot finds the words.
package rules
