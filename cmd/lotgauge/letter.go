package main

import (
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"lotgauge/cmd/lotgauge/table"
	"lotgauge/valuation"
	"lotgauge/valuation/diag"
)

// A letter is the frame of a message to a seller in one language.
type letter struct {
	Language string // a language tag, as the family's questions have it
	Greeting string
	Subject  string // where the title goes stands %s
	Untitled string // where there is no title
	One      string // leads to a single question
	Several  string // leads to several
	Thanks   string
	Close    string
}

// letters are the languages that there are.
var letters = []letter{
	{
		Language: "en",
		Greeting: "Hello,",
		Subject:  "I am interested in your listing “%s”.",
		Untitled: "I am interested in your listing.",
		One:      "Before I decide, may I ask you something?",
		Several:  "Before I decide, may I ask you a few things?",
		Thanks:   "A photo often says it best, if you have the time for one. Thank you very much for your help.",
		Close:    "Kind regards",
	},
	{
		Language: "de",
		Greeting: "Guten Tag,",
		Subject:  "ich interessiere mich für Ihr Angebot „%s“.",
		Untitled: "ich interessiere mich für Ihr Angebot.",
		One:      "Bevor ich mich entscheide, hätte ich noch eine Frage:",
		Several:  "Bevor ich mich entscheide, hätte ich noch ein paar Fragen:",
		Thanks:   "Oft sagt ein Foto am meisten, falls Sie die Zeit dafür finden. Vielen Dank für Ihre Mühe!",
		Close:    "Mit freundlichen Grüßen",
	},
	{
		Language: "fr",
		Greeting: "Bonjour,",
		Subject:  "Votre annonce «\u00a0%s\u00a0» m'intéresse.",
		Untitled: "Votre annonce m'intéresse.",
		One:      "Avant de me décider, j'aurais une question à vous poser\u00a0:",
		Several:  "Avant de me décider, j'aurais quelques questions à vous poser\u00a0:",
		Thanks:   "Une photo est souvent la meilleure réponse, si vous avez le temps d'en prendre une. Je vous remercie d'avance de votre aide.",
		Close:    "Bien cordialement",
	},
}

func letterLanguages() []string {
	var out []string
	for i := range letters {
		out = append(out, letters[i].Language)
	}
	return out
}

// checkLanguage is the error of a language that there is no letter in.
func checkLanguage(language string) error {
	if slices.Contains(letterLanguages(), language) {
		return nil
	}
	err := usagef("--ask %q: no such language", language)
	if near, ok := diag.Nearest(strings.ToLower(language), letterLanguages()); ok {
		return err.hint("did you mean --ask %s?", near)
	}
	return err.hint("there is a letter in %s", strings.Join(letterLanguages(), ", "))
}

// mostAsked is how many questions a seller is asked at once.
const mostAsked = 5

// letter writes the message to the seller in the language asked for. There is
// none where no question is worth asking.
func (opts *appraiseOptions) letter(w io.Writer, a *valuation.Appraisal) error {
	l := &letters[slices.Index(letterLanguages(), opts.Ask)]
	questions := askable(a, l.Language)
	if a.Demonstration {
		opts.note(table.DemonstrationNote)
	}
	if a.Worth == nil {
		opts.note("no letter: which questions are worth asking depends on figures, and a price is missing")
		return nil // what is missing is said when all is done
	}
	if len(questions) == 0 {
		opts.note(nothingToAsk(a))
		return nil
	}
	return l.write(w, a.Title, questions)
}

// write writes a message as one would paste it into a form: a paragraph is one
// line, however long.
func (l *letter) write(w io.Writer, title string, questions []string) error {
	subject := l.Untitled
	if title = spokenTitle(title); title != "" {
		subject = fmt.Sprintf(l.Subject, title)
	}
	lead := l.Several
	if len(questions) == 1 {
		lead = l.One
	}
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n\n%s %s\n\n", l.Greeting, subject, lead)
	for i, q := range questions {
		if len(questions) > 1 {
			fmt.Fprintf(&b, "%d. ", i+1)
		}
		b.WriteString(plainText(q) + "\n")
	}
	fmt.Fprintf(&b, "\n%s\n\n%s\n", l.Thanks, l.Close)
	_, err := io.WriteString(w, b.String())
	return err
}

// nothingToAsk says why there is no letter.
func nothingToAsk(a *valuation.Appraisal) string {
	for _, q := range a.Questions {
		if q.Worth.IsPositive() && len(q.Ask) > 0 && answerable(&q) {
			return "no question to the seller that is worth asking is written in this language"
		}
	}
	return "nothing is worth asking the seller: no answer that a photo or the seller could give would change what to do"
}

// askable are the questions to the seller in a language, the most valuable
// first: those that a photo or the seller's word can settle, that knowing is
// worth anything, and that the listing does not answer already. Of two that are
// worth most together, both are asked or none for the other's sake.
func askable(a *valuation.Appraisal, language string) []string {
	var out []string
	ask := func(q *valuation.Question) {
		text := q.Ask[language]
		if len(out) < mostAsked && !slices.Contains(out, text) {
			out = append(out, text)
		}
	}
	for i := range a.Questions {
		q := &a.Questions[i]
		switch {
		case !q.Worth.IsPositive():
		case q.Kind == "pair":
			if both := members(a, q); len(both) == 2 && sayable(both[0], language) && sayable(both[1], language) {
				ask(both[0])
				ask(both[1])
			}
		case sayable(q, language):
			ask(q)
		}
	}
	return out
}

// sayable tells whether a seller can be asked in a language, and can answer.
func sayable(q *valuation.Question, language string) bool {
	return q.Ask[language] != "" && answerable(q)
}

// answerable tells whether a photo or the seller's word can settle a question
// that has not been answered in the listing already: who wrote that a part is
// missing is not asked about it.
func answerable(q *valuation.Question) bool {
	return !q.Found && (slices.Contains(q.See, "photo") || slices.Contains(q.See, "seller"))
}

// members are the questions that a pair joins.
func members(a *valuation.Appraisal, pair *valuation.Question) []*valuation.Question {
	var out []*valuation.Question
	for _, id := range strings.Split(pair.ID, "+") {
		for i := range a.Questions {
			if q := &a.Questions[i]; q.ID == id && q.Kind != "pair" {
				out = append(out, q)
				break
			}
		}
	}
	return out
}

// titleRunes is how much of a title is quoted to the seller, who wrote it.
const titleRunes = 100

// spokenTitle is a title as it can be quoted: one line, without anything that is
// no character of a text, and not too long.
func spokenTitle(s string) string {
	runes := []rune(plainText(s))
	if len(runes) <= titleRunes {
		return string(runes)
	}
	short := string(runes[:titleRunes])
	if i := strings.LastIndexByte(short, ' '); i > titleRunes/2 {
		short = short[:i]
	}
	return strings.TrimRight(short, " ,;:-") + " …"
}

// sequences are what a terminal takes for a command (ECMA-48: CSI and OSC).
var sequences = regexp.MustCompile("(?:\x1b\\[|\u009b)[0-?]*[ -/]*[@-~]|(?:\x1b\\]|\u009d)[^\x07\x1b\u009c]*(?:\x07|\x1b\\\\|\u009c)?")

// plainText is a text in one line, without control characters and sequences,
// without what turns the writing direction around or is not UTF-8.
func plainText(s string) string {
	s = sequences.ReplaceAllString(s, "")
	s = strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r) && r != '\u00a0' && r != '\u202f':
			return ' '
		case unicode.In(r, unicode.Cc, unicode.Bidi_Control) || r == unicode.ReplacementChar:
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, ""))
	return strings.Join(strings.FieldsFunc(s, func(r rune) bool { return r == ' ' }), " ")
}
