// Package belief reasons about one model locomotive: which variant it is, how
// it was kept, what state each inspection point is in and which symptoms it
// has, given findings that may be mistaken. It knows no money and no files.
//
// Given a variant v and a history h the states of the points are independent,
// and a symptom is absent with probability (1-leak) Π (1-strength) over the
// causes present (noisy-OR; Pearl, Probabilistic Reasoning in Intelligent
// Systems, 1988, section 4.3.2). A report on a symptom ties its causes
// together. Heckerman (A tractable inference algorithm for diagnosing multiple
// diseases, UAI 1989) sums over the subsets of the reported symptoms with
// alternating signs, which cancels in floating point. This package sums the
// same thing from positive terms only: it walks point by point and carries,
// as a bit mask, which reported symptoms already have an explanation. That is
// a hidden Markov chain over masks, so forward and backward messages give the
// evidence, the posterior and exact draws (Rabiner, A tutorial on hidden
// Markov models, Proc. IEEE 77, 1989, sections III.A and B). A symptom's bit
// lives only between the first and the last of its causes.
//
// Every product that is added to something is written float64(a*b), so that
// no platform fuses the two and all platforms agree to the last bit.
package belief
