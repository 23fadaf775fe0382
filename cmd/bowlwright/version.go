package main

import "runtime/debug"

// version is recorded in every plan.
const version = "0.1"

// versionText is the version with the commit that the program was built from, where the
// build knows it.
func versionText() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return version
	}
	return versionOf(info)
}

// versionOf reads the commit that the go command noted in the build.
func versionOf(info *debug.BuildInfo) string {
	commit, changed := "", ""
	for _, s := range info.Settings {
		switch {
		case s.Key == "vcs.revision":
			commit = s.Value[:min(len(s.Value), commitShown)]
		case s.Key == "vcs.modified" && s.Value == "true":
			changed = ", changed since"
		}
	}
	if commit == "" {
		return version + " (built without a commit)"
	}
	return version + " (commit " + commit + changed + ")"
}

// commitShown is how much of a commit tells it from all others.
const commitShown = 12
