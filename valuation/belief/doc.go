// Package belief reasons about one model locomotive: which variant it is, how
// it was kept, what state each inspection point is in and which symptoms it
// has, given findings that may be mistaken. It knows no money and no files.
//
// # The model
//
// Given a variant v and a history h the states of the points are independent,
// and a symptom is absent with probability P₀ = (1-leak) Π (1-strength) over
// the causes present (noisy-OR; Pearl, Probabilistic Reasoning in Intelligent
// Systems, Morgan Kaufmann 1988, ISBN 0-934613-73-7, section 4.3.2). With A and
// B the probabilities of all reports on it, if it is there and if it is not,
// the reports weigh the states by A(1-P₀) + B·P₀.
//
// # The method
//
// Such a factor ties the causes of a symptom together. Heckerman (A tractable
// inference algorithm for diagnosing multiple diseases, Proc. Uncertainty in
// Artificial Intelligence, 1989, pp. 163-171) multiplies the factors out: a sum
// over the subsets of the reported symptoms, with alternating signs, which
// cancels in floating point. This package sums the same thing from positive
// terms only. It walks from point to point and
// carries a message: for each set of reported symptoms (a bit mask) the
// probability that just these have an explanation so far. A leak sets a bit
// from the start, a state sets the bits of what it causes with their strengths
// (Zhang and Poole, Exploiting causal independence in Bayesian network
// inference, JAIR 5, 1996, pp. 301-328, split a noisy-OR in the same way), and
// at the end a bit that is set weighs A, one that is not B. Where A is zero no
// bit is needed: each state is weighed by its (1-strength).
//
// The masks are a hidden Markov chain, so forward and backward messages give
// the evidence, the posterior and exact draws (Rabiner, A tutorial on hidden
// Markov models, Proc. IEEE 77, 1989, pp. 257-286, doi:10.1109/5.18626). A
// symptom's bit lives only from the first to the last of its causes, and
// points that can cause no reported symptom are not walked at all: they stay
// independent.
//
// # Same answer everywhere
//
// Sources are cited from memory; what was taken from them is held against
// enumeration by the tests.
//
// Every product that is added to something, then or later, is written
// float64(a*b): only so may no platform fuse the two
// (https://go.dev/ref/spec#Floating_point_operators), and all agree to the last
// bit. Draws compare whole numbers or such products, and no Exp is taken.
package belief
