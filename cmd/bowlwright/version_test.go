package main

import (
	"runtime/debug"
	"testing"
)

func TestVersionNamesTheCommit(t *testing.T) {
	settings := func(pairs ...string) *debug.BuildInfo {
		info := &debug.BuildInfo{}
		for i := 0; i < len(pairs); i += 2 {
			info.Settings = append(info.Settings, debug.BuildSetting{Key: pairs[i], Value: pairs[i+1]})
		}
		return info
	}
	const commit = "0123456789abcdef0123456789abcdef01234567"
	for want, info := range map[string]*debug.BuildInfo{
		version + " (built without a commit)":             settings(),
		version + " (commit 0123456789ab)":                settings("vcs.revision", commit, "vcs.modified", "false"),
		version + " (commit 0123456789ab, changed since)": settings("vcs.revision", commit, "vcs.modified", "true"),
	} {
		if got := versionOf(info); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
