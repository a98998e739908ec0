package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"potlife/cmd/potlife/internal/report"
)

// records reads a table as rows of cells by their headings.
func records(t *testing.T, text []byte) []map[string]string {
	t.Helper()
	rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	if err != nil || len(rows) == 0 {
		t.Fatalf("%d rows: %v", len(rows), err)
	}
	var list []map[string]string
	for _, row := range rows[1:] {
		cells := map[string]string{}
		for i, cell := range row {
			cells[rows[0][i]] = cell
		}
		if len(cells) != len(rows[0]) {
			t.Fatalf("a heading stands twice: %q", rows[0])
		}
		list = append(list, cells)
	}
	return list
}

// sum adds up a column; empty cells are none.
func sum(t *testing.T, rows []map[string]string, column string) (total float64) {
	t.Helper()
	for _, row := range rows {
		cell, found := row[column]
		if !found {
			t.Fatalf("no column %s", column)
		}
		if cell == "" {
			continue
		}
		x, err := strconv.ParseFloat(cell, 64)
		if err != nil {
			t.Fatalf("%s: %v", column, err)
		}
		total += x
	}
	return total
}

// answerOf runs a command that answers, and reads its JSON where into is not nil.
func answerOf(t *testing.T, into any, args ...string) []byte {
	t.Helper()
	var out, errOut bytes.Buffer
	if code := run(args, &out, &errOut); code != exitDone {
		t.Fatalf("%q: exit %d: %s", args, code, errOut.String())
	}
	if into != nil {
		if err := json.Unmarshal(out.Bytes(), into); err != nil {
			t.Fatal(err)
		}
	}
	return out.Bytes()
}

// equal compares a sum of figures that were rounded to a millionth each.
func equal(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-4) || want == 0 {
		t.Errorf("%s: %g in the tables, %g in JSON", what, got, want)
	}
}

// TestExport: the tables of a session say what log and report say in JSON.
func TestExport(t *testing.T) {
	strut := filepath.Join("..", "..", "testdata", "sessions", "strut.session")
	folder := filepath.Join(t.TempDir(), "tables")
	var answer report.Export
	answerOf(t, &answer, "session", "export", strut, "--csv", "-o", folder, "--json")
	tables := map[string][]map[string]string{}
	for i, name := range report.SessionTables {
		text, err := os.ReadFile(filepath.Join(folder, name+".csv"))
		if err != nil {
			t.Fatal(err)
		}
		tables[name] = records(t, text)
		if f := answer.Files[i]; f.File != name+".csv" || f.Rows != len(tables[name]) {
			t.Errorf("%s has %d rows, told: %+v", name, len(tables[name]), f)
		}
		if printed := answerOf(t, nil, "session", "export", strut, "--table", name); !bytes.Equal(printed, text) {
			t.Errorf("%s is printed otherwise", name)
		}
	}
	var journal report.Journal
	var day report.Day
	answerOf(t, &journal, "log", "--session", strut, "--json")
	answerOf(t, &day, "report", strut, "--json")

	mixed, celsius, readings, undone := 0.0, 0.0, 0, 0
	for i, e := range journal.Events {
		row := tables["events"][i]
		if row["event"] != strconv.Itoa(e.Seq) || row["kind"] != string(e.Kind) || row["what"] != e.What {
			t.Errorf("event %d: %v", e.Seq, row)
		}
		mixed += e.MassG + e.ResinG + e.HardenerG
		if (row["taken_back_by"] != "") != (e.TakenBackBy != nil) {
			t.Errorf("event %d is taken back by %s", e.Seq, row["taken_back_by"])
		}
		if e.TakenBackBy != nil {
			undone++
			continue
		}
		if e.IsC != nil {
			celsius += *e.IsC
		}
		if e.IsC != nil || e.IsPaS > 0 || e.Grams != nil {
			readings++
		}
	}
	equal(t, "mixed by events", sum(t, tables["events"], "mass_g"), mixed)
	equal(t, "mixed by pots", sum(t, tables["pots"], "mass_g"), day.Totals.MixedG)
	equal(t, "parts by pots", sum(t, tables["pots"], "resin_g")+sum(t, tables["pots"], "hardener_g"), day.Totals.MixedG)
	equal(t, "temperatures", sum(t, tables["readings"], "temperature_C"), celsius)
	equal(t, "pauses", sum(t, tables["layers"], "paused_min"), day.Totals.PausedS/60)
	if len(tables["readings"]) != readings || len(tables["events"]) != len(journal.Events) || undone == 0 {
		t.Errorf("%d readings of %d, %d events of %d, %d taken back", len(tables["readings"]), readings, len(tables["events"]), len(journal.Events), undone)
	}
	for i, l := range day.Layers {
		if row := tables["layers"][i]; row["name"] != l.Name || row["start"] != l.Start.Format("2006-01-02T15:04:05Z07:00") || row["planned_end"] != l.PlannedEnd.Format("2006-01-02T15:04:05Z07:00") {
			t.Errorf("layer %d: %v", i+1, row)
		}
	}
}

// TestExportPlan: the tables of a plan say what its JSON does.
func TestExportPlan(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "tables")
	var plan report.Plan
	answerOf(t, &plan, "plan", filepath.Join("..", "..", "testdata", "jobs", "telescope-strut.yaml"), "--csv", folder, "--json")
	read := func(name string) []map[string]string {
		text, err := os.ReadFile(filepath.Join(folder, name))
		if err != nil {
			t.Fatal(err)
		}
		return records(t, text)
	}
	pots, layers := read("pots.csv"), read("layers.csv")
	equal(t, "mixed", sum(t, pots, "mass_g"), plan.Totals.MixedG)
	equal(t, "parts", sum(t, pots, "resin_g")+sum(t, pots, "hardener_g"), plan.Totals.MixedG)
	equal(t, "fibre", sum(t, layers, "fibre_g"), plan.Totals.FibreG)
	if len(pots) != plan.Totals.Pots || len(layers) != len(plan.Layers) || pots[1]["pot"] != "2" || pots[0]["mix_at"] != plan.Pots[0].MixAt.Format("2006-01-02T15:04:05Z07:00") {
		t.Errorf("%d pots, %d layers, %v", len(pots), len(layers), pots[0])
	}
}
