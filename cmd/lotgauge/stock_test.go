package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// How many listings the script makes that ranks a folder, and how many of them
// are broken.
func stockSize() (all, broken int) {
	if testing.Short() {
		return 100, 9
	}
	return 1000, 30
}

// stock makes a folder of listings, the last of them broken: stock DIR COUNT
// BROKEN.
func stock(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: stock dir count broken")
	}
	count, err := strconv.Atoi(args[1])
	ts.Check(err)
	broken, err := strconv.Atoi(args[2])
	ts.Check(err)
	dir := ts.MkAbs(args[0])
	ts.Check(os.MkdirAll(dir, 0o777))
	for i := range count {
		file := filepath.Join(dir, fmt.Sprintf("lot-%04d.toml", i))
		if i < count-broken {
			ts.Check(os.WriteFile(file, []byte(soundListing(i)), 0o666))
		} else {
			ts.Check(breakListing(file, i))
		}
	}
}

// titles are of all kinds that a seller may write, as TOML strings hold them.
var titles = []string{
	"Black tank engine, not tested",
	strings.Repeat("A title without end ", 500),
	strings.Repeat("赤い電気機関車", 1429),
	"<script>alert(1)</script><b>bold</b> & more",
	"\u05E7\u05D8\u05E8 \u05E9\u05D7\u05D5\u05E8 12.50 \u0627\u0644\u0633\u0648\u062F\u0627\u0621",
	"🚂👩🏽\u200d🔧 wow e\u0301\u0301\u0301",
	`\u001B[31m\u001B]0;owned\u0007\u009B2J\u202Egnp.exe`,
	`=HYPERLINK(\"http://x\",\"y\")`,
	"+1", "-1+1", "@SUM(A1)", `\t=1`, `\r=1`, `a,\"b\"\nc`,
}

// soundListing is the text of a listing that can be appraised.
func soundListing(i int) string {
	sale := fmt.Sprintf("sale = \"fixed\"\nask = \"%d EUR\"\n", 20+i%90)
	if i%3 == 1 {
		sale = fmt.Sprintf("ask = \"%d GBP\"\nhammer = { low = \"%d GBP\", high = \"%d GBP\" }\nbuy = \"hall\"\n", 5+i%20, 20+i%30, 60+i%40)
	}
	return fmt.Sprintf("format = 1\ntitle = \"%s\"\nfamily = \"quillmore-t1\"\ndate = 2026-03-14\n%s", titles[i%len(titles)], sale)
}

// breakListing makes a file that is no listing, in one of many ways.
func breakListing(file string, i int) error {
	sound := soundListing(0)
	text := []string{
		"",
		"format = 1\ntitle = \"x",
		sound + "colour = \"red\"\n",
		strings.Replace(sound, "quillmore-t1", "quillmore-t2", 1),
		strings.Replace(sound, "\"20 EUR\"", "20", 1),
		strings.Replace(sound, "20 EUR", "-20 EUR", 1),
		"\x89PNG\x00\x1b[31m",
		"format = 1\ntitle = \"Kr\xfcckau\"\n",
		sound + "[[finding]]\npoint = \"lamps\"\nstate = \"gone\"\nby = \"photo\"\n",
	}
	if i%(len(text)+1) == len(text) {
		return os.Mkdir(file, 0o777)
	}
	return os.WriteFile(file, []byte(text[i%(len(text)+1)]), 0o666)
}
