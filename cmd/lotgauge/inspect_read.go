package main

import (
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	"lotgauge/valuation"
)

// A deed is what somebody wants done.
type deed uint8

const (
	doUnknown deed = iota
	doNothing
	doAnswer
	doBack
	doStop
	doGoOn
	doType // a whole line is to come
)

// A request is what somebody typed, understood.
type request struct {
	do      deed
	check   valuation.Check // the one asked for
	more    bool            // whether one is asked for
	key     string          // the name of another, "" for that one
	answer  string
	reading bool // the line to come is a reading
	text    string
}

// keys are those for answers, in their order: none that does something else.
const keys = "123456789acdefhijklnoprtuvwxyz"

// answerKeys are the keys of a check's answers; those beyond have none, and are
// typed.
func answerKeys(c valuation.Check) []string {
	out := make([]string, len(c.Answers))
	for i := range min(len(out), len(keys)) {
		out[i] = keys[i : i+1]
	}
	return out
}

// commands are the words and keys that do something else than answer.
var commands = map[string]request{
	"?": {do: doAnswer, answer: valuation.CannotTell}, "cannot tell": {do: doAnswer, answer: valuation.CannotTell},
	"s": {do: doAnswer, answer: valuation.Skip}, "skip": {do: doAnswer, answer: valuation.Skip}, ".": {do: doAnswer, answer: valuation.Skip},
	"b": {do: doBack}, "back": {do: doBack},
	"q": {do: doStop}, "stop": {do: doStop},
	"g": {do: doGoOn}, "go on": {do: doGoOn},
	":": {do: doType}, "m": {do: doType, reading: true},
}

// read understands what was typed when a check was asked for, or none. A single
// character is a key; a longer text is an answer before it is a command.
func read(text string, c valuation.Check, more bool) request {
	text = strings.TrimSpace(text)
	r := request{do: doAnswer, check: c, more: more, answer: text, text: text}
	if text == "" {
		r.do = doNothing
		return r
	}
	if name, answer, ok := strings.Cut(text, "="); ok {
		r.key, r.answer = strings.TrimSpace(name), plainAnswer(strings.TrimSpace(answer))
		return r
	}
	if utf8.RuneCountInString(text) == 1 {
		if i := strings.Index(keys, text); i >= 0 && i < len(c.Answers) && more {
			r.answer = c.Answers[i].ID
			return r
		}
	} else if more && slices.ContainsFunc(c.Answers, func(a valuation.CheckAnswer) bool { return a.ID == text }) {
		return r
	}
	if known, ok := commands[strings.ToLower(text)]; ok {
		return r.command(known)
	}
	switch {
	case !more:
		r.do = doUnknown
	case c.Measure != nil:
		r.answer = withUnit(text, c.Measure.Unit)
	}
	return r
}

// command is the request for one of the commands, where it makes sense.
func (r request) command(known request) request {
	switch {
	case known.do == doAnswer && !r.more, known.reading && (!r.more || r.check.Measure == nil):
		r.do = doUnknown
		if known.reading && r.more {
			r.do = doAnswer // which the engine refuses, saying what can be answered
		}
	default:
		r.do, r.answer, r.reading = known.do, known.answer, known.reading
	}
	return r
}

// leaves tells whether a line says that none is to come after all: Escape is in
// it.
func leaves(line string) bool { return strings.ContainsRune(line, escape) }

// plainAnswer is the answer of a word such as skip.
func plainAnswer(text string) string {
	if known, ok := commands[strings.ToLower(text)]; ok && known.do == doAnswer && len(text) > 1 {
		return known.answer
	}
	return text
}

// commaNumber is a number with a decimal comma, and what stands behind it.
var commaNumber = regexp.MustCompile(`^([0-9]+),([0-9]+)(\s*\pL*)$`)

// dotted is a reading with a decimal point where it was typed with a comma, as
// most who measure in millimetres do. Files keep to the point.
func dotted(text string) string {
	return commaNumber.ReplaceAllString(strings.TrimSpace(text), "$1.$2$3")
}

// withUnit adds the unit to a bare number.
func withUnit(text, unit string) string {
	text = dotted(text)
	if text != "" && strings.Trim(text, "0123456789.") == "" {
		return text + " " + unit
	}
	return text
}
