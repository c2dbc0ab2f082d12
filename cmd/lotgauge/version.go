package main

import "runtime/debug"

// version says what was built: the module's version, else the commit that it was
// built from, and with which Go.
func version(info *debug.BuildInfo, ok bool) string {
	if !ok {
		return "of unknown version"
	}
	named := info.Main.Version
	if named == "" || named == "(devel)" {
		named = "of unknown version"
		if commit := setting(info, "vcs.revision"); commit != "" {
			named = "of commit " + commit[:min(12, len(commit))]
		}
	}
	if setting(info, "vcs.modified") == "true" {
		named += ", changed since"
	}
	return named + " (" + info.GoVersion + ")"
}

// setting is what the build was set to, "" where nothing was.
func setting(info *debug.BuildInfo, key string) string {
	for _, s := range info.Settings {
		if s.Key == key {
			return s.Value
		}
	}
	return ""
}
