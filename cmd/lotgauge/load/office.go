package load

import (
	"os"
	"path/filepath"
	"strings"

	"lotgauge/valuation/diag"
)

// OpenElsewhere says who has a file open in an office program, as far as such
// programs leave a mark beside the file: ".~lock.NAME#", a line of
// comma-separated text that begins with the name of the user, or "~$NAME"
// (their habits, from memory). It is "" if there is no mark. A mark may be left
// from a program that crashed, so it is a reason to warn and not to refuse.
func OpenElsewhere(path string) string {
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real
	}
	dir, base := filepath.Split(path)
	for _, mark := range []string{".~lock." + base + "#", "~$" + base} {
		info, err := os.Lstat(filepath.Join(dir, mark))
		if err != nil || !info.Mode().IsRegular() {
			continue
		}
		user := ""
		if strings.HasSuffix(mark, "#") {
			user = who(filepath.Join(dir, mark), info.Size())
		}
		return "an office program" + user + " (" + mark + ")"
	}
	return ""
}

// who is the user that a mark names.
func who(mark string, size int64) string {
	const most = 1000 // a mark of one line is far shorter
	if size > most {
		return ""
	}
	text, err := os.ReadFile(mark)
	if err != nil {
		return ""
	}
	for cell := range strings.SplitSeq(string(text), ",") { // the name may be empty, that of the account follows
		if cell = strings.TrimSpace(cell); cell != "" {
			return " of " + diag.Clean(cell)
		}
	}
	return ""
}
