package outside

import (
	_ "embed"
	"fmt"
	"sort"
	"strings"
	"text/template"
)

// page.tmpl is the page but for its tables; what is not validated stands there in prose.
//
//go:embed page.tmpl
var pageText string

var pageTemplate = template.Must(template.New("page").Parse(pageText))

// contents are what the template shows.
type contents struct {
	Checks, Anchored int
	Sources          int // with a check that was seen or recalled
	Marks            []count
	Tables           []table
	AnchoredTable    string
	SourceTable      string
}

type count struct {
	Mark    Mark
	Checks  int
	Sources int
}

type table struct {
	Subject Subject
	Rows    string
}

// render writes the page of rows.
func render(lines []Line) (string, contents, error) {
	var c contents
	var anchored []Line
	bySubject := map[Subject][]Line{}
	checks := map[string]int{}
	for _, l := range lines {
		if l.Anchored != "" {
			anchored = append(anchored, l)
			continue
		}
		c.Checks++
		bySubject[l.Subject] = append(bySubject[l.Subject], l)
		checks[l.Source]++
	}
	c.Anchored = len(anchored)
	independent := map[string]bool{}
	for _, m := range Marks {
		n := count{Mark: m}
		of := map[string]bool{}
		for _, l := range lines {
			if l.Mark != m || l.Anchored != "" {
				continue
			}
			n.Checks++
			if l.Source != "" {
				of[l.Source] = true
			}
			if m == Seen || m == Memory {
				independent[l.Source] = true
			}
		}
		n.Sources = len(of)
		c.Marks = append(c.Marks, n)
	}
	c.Sources = len(independent)
	for _, s := range Subjects {
		if len(bySubject[s]) > 0 {
			c.Tables = append(c.Tables, table{s, rowsTable(bySubject[s])})
		}
	}
	c.AnchoredTable = anchoredTable(anchored)
	c.SourceTable = sourceTable(lines)
	var out strings.Builder
	if err := pageTemplate.Execute(&out, c); err != nil {
		return "", c, err
	}
	return out.String(), c, nil
}

func rowsTable(lines []Line) string {
	var out strings.Builder
	out.WriteString("| what | printed | ours | off | allowed, because | mark, source | test |\n|---|---|---|---|---|---|---|\n")
	for _, l := range lines {
		fmt.Fprintf(&out, "| %s | %s | %s | %s | %s | %s | %s |\n",
			l.What, l.told(), l.Ours, l.Off, l.why(), l.from(), l.test())
	}
	return out.String()
}

func anchoredTable(lines []Line) string {
	var out strings.Builder
	out.WriteString("| what | printed | ours | anchored how | mark, source | test |\n|---|---|---|---|---|---|\n")
	for _, l := range lines {
		fmt.Fprintf(&out, "| %s | %s | %s | %s | %s | %s |\n", l.What, l.told(), l.Ours, l.Anchored, l.from(), l.test())
	}
	return out.String()
}

// sourceTable lists the sources in the order of their keys, with how many checks each has.
func sourceTable(lines []Line) string {
	checks, anchored := map[string]int{}, map[string]int{}
	for _, l := range lines {
		if l.Anchored != "" {
			anchored[l.Source]++
		} else {
			checks[l.Source]++
		}
	}
	keys := make([]string, 0, len(Sources))
	for key := range Sources {
		if checks[key]+anchored[key] > 0 {
			keys = append(keys, key)
		}
	}
	sort.Strings(keys)
	var out strings.Builder
	out.WriteString("| key | source | how it was read | checks | anchored |\n|---|---|---|---|---|\n")
	for _, key := range keys {
		fmt.Fprintf(&out, "| %s | %s | %s | %d | %d |\n", key, Sources[key].Text, Sources[key].Read, checks[key], anchored[key])
	}
	return out.String()
}

func (l Line) told() string {
	text := l.Printed
	if l.To != "" && l.To != OrMore {
		text += " to " + l.To
	}
	if l.Unit != "" {
		text += " " + l.Unit
	}
	if l.To == OrMore {
		text += " " + OrMore
	}
	return text
}

func (l Line) why() string {
	if l.Why == "" || l.Allowed == "nothing" {
		return strings.TrimSuffix(l.Allowed+", "+l.Why, ", ")
	}
	return l.Allowed + ": " + l.Why
}

func (l Line) from() string {
	text := string(l.Mark)
	if l.Source != "" {
		text += ", " + l.Source
	}
	if l.Where != "" {
		text += ", " + l.Where
	}
	return text
}

func (l Line) test() string { return "`" + l.Package + "` " + l.Test }
