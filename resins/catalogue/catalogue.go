// Package catalogue holds the built-in systems and fibres, one YAML file each.
// None of the room-temperature rate laws is a published fit; every file says
// under evidence what it rests on.
package catalogue

import (
	"embed"
	"io/fs"
	"path"
	"strings"
)

//go:embed systems/*.yaml fibres/*.yaml
var files embed.FS

// Systems returns the names of the built-in systems in alphabetical order.
func Systems() []string { return names("systems") }

// Fibres returns the names of the built-in fibres in alphabetical order.
func Fibres() []string { return names("fibres") }

// System returns the file of a built-in system; found is false for another name.
func System(name string) (source []byte, found bool) { return file("systems", name) }

// Fibre returns the file of a built-in fibre; found is false for another name.
func Fibre(name string) (source []byte, found bool) { return file("fibres", name) }

func names(folder string) []string {
	entries, err := fs.ReadDir(files, folder)
	if err != nil {
		return nil // an embedded folder is always there
	}
	list := make([]string, 0, len(entries))
	for _, e := range entries {
		list = append(list, strings.TrimSuffix(e.Name(), ".yaml"))
	}
	return list
}

func file(folder, name string) ([]byte, bool) {
	source, err := files.ReadFile(path.Join(folder, name+".yaml"))
	return source, err == nil
}
