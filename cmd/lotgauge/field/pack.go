package field

// How bytes lie in the text of the page: each byte goes up by shift, so that a
// zero becomes something printable, and what HTML would not hand on as it is is
// written as escape and the byte further up by lift. HTML replaces NUL, makes
// CR a line feed, and looks for a tag behind "<".
const (
	shift  = 42
	escape = '='
	lift   = 64
)

// pack writes bytes so that they survive in a script element of a page in
// windows-1252.
func pack(data []byte) []byte {
	out := make([]byte, 0, len(data)+len(data)/32)
	for _, b := range data {
		b += shift
		switch b {
		case 0, '\r', '<', escape:
			out = append(out, escape, b+lift)
		default:
			out = append(out, b)
		}
	}
	return out
}
