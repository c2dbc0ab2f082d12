package load

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// Listings returns the listing files that paths stand for: a folder stands for
// the files NAME.toml directly in it, in the order of their names, but those
// whose name begins with a dot. Whether a file can be read is found out when it
// is opened. A file that is named twice is there once. Several is true where a
// folder was named or more than one path. A folder that cannot be used is among
// the errors, and its files are missing.
func Listings(paths []string) (files []string, several bool, bad []error) {
	seen := map[string]bool{}
	several = len(paths) > 1
	for _, path := range paths {
		in := []string{path}
		if info, err := os.Stat(path); path != "-" && err == nil && info.IsDir() {
			several = true
			if in, err = inFolder(path); err != nil {
				bad = append(bad, err)
				continue
			}
		}
		for _, file := range in {
			if key := filepath.Clean(file); !seen[key] {
				seen[key] = true
				files = append(files, file)
			}
		}
	}
	return files, several, bad
}

// inFolder lists the listings in a folder.
func inFolder(dir string) ([]string, error) {
	name := Short(dir)
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, refused(name, err)
	}
	if isDataFolder(entries) {
		return nil, &Error{Path: name, What: "is a data folder, not one of listings", Mistaken: true,
			Hint: "--data " + name + " appraises by it; lotgauge check " + name + " proves it sound"}
	}
	var files []string
	for _, e := range entries {
		if strings.EqualFold(filepath.Ext(e.Name()), ".toml") && e.Name()[0] != '.' {
			files = append(files, filepath.Join(dir, e.Name()))
		}
	}
	if len(files) == 0 {
		return nil, &Error{Path: name, What: "has no listing in it", Hint: "a listing is a file NAME.toml; folders within are not searched", Mistaken: true}
	}
	return files, nil
}

// isDataFolder tells a data folder by its settings and families.
func isDataFolder(entries []fs.DirEntry) bool {
	found := 0
	for _, e := range entries {
		if e.Name() == "settings.toml" || e.Name() == "families" && e.IsDir() {
			found++
		}
	}
	return found == 2
}

// Overwrites is the error of an output file that is one of the files it is made
// from, nil where it is none of them.
func Overwrites(output string, inputs []string) error {
	out, err := os.Stat(output)
	if err != nil || !out.Mode().IsRegular() {
		return nil
	}
	for _, in := range inputs {
		info, err := os.Stat(in)
		if err == nil && os.SameFile(out, info) {
			return &Error{Path: Short(output), What: "is the listing itself: it would be lost", Mistaken: true,
				Hint: "name another file to write to"}
		}
	}
	return nil
}
