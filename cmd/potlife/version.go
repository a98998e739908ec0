package main

import (
	"runtime"
	"runtime/debug"
	"strings"

	"potlife/cmd/potlife/internal/report"
)

// readBuild tells what the Go command noted. Tests set another version.
var readBuild = debug.ReadBuildInfo

// version is what the program was built from, as the Go command noted it.
func version() *report.Version {
	info, _ := readBuild()
	return versionOf(info)
}

// versionOf reads it off. A build of a folder without a tag or a repository has no version.
func versionOf(info *debug.BuildInfo) *report.Version {
	v := &report.Version{Go: runtime.Version(), System: runtime.GOOS + "/" + runtime.GOARCH}
	if info == nil {
		return v
	}
	if info.Main.Version != "(devel)" {
		v.Version = strings.TrimSuffix(info.Main.Version, "+dirty") // Modified says so
	}
	for _, setting := range info.Settings {
		switch setting.Key {
		case "vcs.revision":
			v.Revision = setting.Value
		case "vcs.time":
			v.RevisedAt = setting.Value
		case "vcs.modified":
			v.Modified = setting.Value == "true"
		}
	}
	return v
}
