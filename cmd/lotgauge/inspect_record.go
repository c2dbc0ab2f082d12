package main

import (
	"bytes"
	"io"
	"io/fs"
	"os"
	"strings"

	"lotgauge/cmd/lotgauge/load"
	"lotgauge/valuation"
)

// A record is the file of an inspection: a listing as it was before, and below
// it each answer as a remark with the finding that came of it.
//
//	# checked point:tyres = worn
//	[[finding]]
//	point = "tyres"
//	…
//
// The remarks are what an inspection is taken up by: those without a finding
// ("cannot tell", skipped), and the order in which it can be taken back.
type record struct {
	file string
	base []byte // the listing before
	last []byte // what the file held when it was last read or written, nil for none
}

const (
	mark    = "# Found in an inspection, in this order. lotgauge inspect goes on by these remarks."
	checked = "# checked "
)

func (r *record) name() string { return load.Short(r.file) }

// save puts the file in its place in one step.
func (r *record) save(n *valuation.Inspection) error {
	if err := r.unchanged(); err != nil {
		return err
	}
	text := r.text(n)
	if bytes.Equal(text, r.last) {
		return nil
	}
	err := load.Replace(r.file, func(w io.Writer) error {
		_, err := w.Write(text)
		return err
	})
	if err == nil {
		r.last = text
	}
	return err
}

// unchanged is the error of a file that another program has changed since.
func (r *record) unchanged() error {
	info, err := os.Stat(r.file)
	if err != nil || !info.Mode().IsRegular() {
		return nil // gone, or a device: it is written anew
	}
	text, err := os.ReadFile(r.file)
	switch {
	case err != nil:
		return &load.Error{Path: r.name(), What: "cannot be read: " + fault(err), Err: err}
	case !bytes.Equal(text, r.last):
		return &load.Error{Path: r.name(), What: "another program has changed it meanwhile",
			Hint: "lotgauge inspect " + r.name() + " goes on with what it says now; the last answer is not in it"}
	}
	return nil
}

// fault is what the system said, without the path.
func fault(err error) string {
	if e, ok := err.(*fs.PathError); ok {
		return e.Err.Error()
	}
	return err.Error()
}

// text is the whole file.
func (r *record) text(n *valuation.Inspection) []byte {
	replies := n.Replies()
	if len(replies) == 0 {
		return r.base
	}
	var b bytes.Buffer
	b.Write(r.base)
	if len(r.base) > 0 && r.base[len(r.base)-1] != '\n' {
		b.WriteByte('\n')
	}
	b.WriteString("\n" + mark + "\n")
	findings := n.Listing().Findings
	findings = findings[len(findings)-found(replies):]
	for _, reply := range replies {
		b.WriteString("\n" + checked + reply.Check + " = " + reply.Answer + "\n")
		if settles(reply) {
			b.WriteString(findingText(findings[0]))
			findings = findings[1:]
		}
	}
	return b.Bytes()
}

// settles tells whether a reply is a finding.
func settles(r valuation.Reply) bool {
	return r.Answer != valuation.CannotTell && r.Answer != valuation.Skip
}

// found is how many replies are findings.
func found(replies []valuation.Reply) int { return len(replies) - len(unanswered(replies)) }

// unanswered are the replies that are no findings.
func unanswered(replies []valuation.Reply) []valuation.Reply {
	var out []valuation.Reply
	for _, r := range replies {
		if !settles(r) {
			out = append(out, r)
		}
	}
	return out
}

// findingText is a finding as it stands in a listing.
func findingText(f valuation.Finding) string {
	var b strings.Builder
	_ = (&valuation.Listing{Findings: []valuation.Finding{f}}).WriteTOML(&b) // a Builder takes everything
	_, text, _ := strings.Cut(b.String(), "\n\n")
	return text
}

// sameFindings tells whether two listings have found the same.
func sameFindings(a, b *valuation.Listing) bool {
	if len(a.Findings) != len(b.Findings) {
		return false
	}
	for i := range a.Findings {
		if findingText(a.Findings[i]) != findingText(b.Findings[i]) {
			return false
		}
	}
	return true
}

// divide parts the file of an inspection into the listing before and what was
// answered. A listing that is none is all before.
func divide(text []byte) (base []byte, replies []valuation.Reply) {
	before, after, ok := bytes.Cut(text, []byte("\n"+mark+"\n"))
	if !ok {
		return text, nil
	}
	for line := range strings.Lines(string(after)) {
		if rest, ok := strings.CutPrefix(strings.TrimRight(line, "\r\n"), checked); ok {
			check, answer, _ := strings.Cut(rest, " = ")
			replies = append(replies, valuation.Reply{Check: check, Answer: answer})
		}
	}
	return before, replies
}

// forgetful is the text without the remarks of an inspection.
func forgetful(text []byte) []byte {
	var b bytes.Buffer
	for line := range bytes.Lines(text) {
		own := string(bytes.TrimRight(line, "\r\n"))
		if own != mark && !strings.HasPrefix(own, checked) {
			b.Write(line)
		}
	}
	return b.Bytes()
}

// extensible tells whether findings can be added at the end of a listing, which
// they cannot be where it has them as one array.
func extensible(base []byte) bool {
	more := string(base) + "\n[[finding]]\npoint = \"a\"\nby = \"hidden\"\n"
	_, diags := valuation.ReadListing("", strings.NewReader(more))
	return !diags.HasErrors()
}
