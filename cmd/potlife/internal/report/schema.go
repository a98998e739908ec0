package report

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"
)

// A Schema is that of one kind of files; File is where it was written, if it was.
type Schema struct {
	Kind  string `json:"kind"`
	Title string `json:"title"`
	File  string `json:"file,omitempty"`
	Line  string `json:"line,omitempty"` // that points an editor at it
}

// NewSchema is a schema written to file, or only named.
func NewSchema(kind, title, file string) *Schema {
	s := &Schema{Kind: kind, Title: title, File: file}
	if file != "" {
		path := filepath.ToSlash(file)
		if !filepath.IsAbs(file) && !strings.HasPrefix(path, ".") {
			path = "./" + path
		}
		s.Line = "# yaml-language-server: $schema=" + path
	}
	return s
}

// Text tells where the schema is and how a file names it.
func (s *Schema) Text(w io.Writer) error {
	_, err := fmt.Fprintf(w, "%s: the schema of a %s. Many editors take it from the first line of a file\nbeside it:\n\n    %s\n", s.File, s.Title, s.Line)
	return err
}

// Schemas are the kinds that there are.
type Schemas struct {
	Kinds []Schema `json:"kinds"`
}

// Text lists the kinds.
func (s *Schemas) Text(w io.Writer) error {
	for _, kind := range s.Kinds {
		if _, err := fmt.Fprintf(w, "%-11s %s\n", kind.Kind, kind.Title); err != nil {
			return err
		}
	}
	_, err := fmt.Fprintln(w, "\npotlife schema KIND -o FILE writes the schema of a kind.")
	return err
}
