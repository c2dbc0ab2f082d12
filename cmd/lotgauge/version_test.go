package main

import (
	"runtime/debug"
	"testing"
)

func TestVersion(t *testing.T) {
	set := func(pairs ...string) *debug.BuildInfo {
		info := &debug.BuildInfo{GoVersion: "go1.26"}
		for i := 0; i < len(pairs); i += 2 {
			info.Settings = append(info.Settings, debug.BuildSetting{Key: pairs[i], Value: pairs[i+1]})
		}
		return info
	}
	tagged := set()
	tagged.Main.Version = "v1.2.3"
	for _, test := range []struct {
		info *debug.BuildInfo
		ok   bool
		want string
	}{
		{nil, false, "of unknown version"},
		{set(), true, "of unknown version (go1.26)"},
		{tagged, true, "v1.2.3 (go1.26)"},
		{set("vcs.revision", "0123456789abcdef"), true, "of commit 0123456789ab (go1.26)"},
		{set("vcs.revision", "012345", "vcs.modified", "true"), true, "of commit 012345, changed since (go1.26)"},
	} {
		if got := version(test.info, test.ok); got != test.want {
			t.Errorf("got %q, want %q", got, test.want)
		}
	}
}
