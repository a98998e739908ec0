// Package document reads small YAML documents strictly: resin records, jobs, statements,
// and mappings written on one line in a command-line flag.
//
// A caller describes a mapping as a table of fields bound to its variables, and Read
// fills them and collects every fault of the document at once, each with its file, line,
// column, the offending line and the mend. The same table says enough to write a schema
// or a manual page from it: name, kind, doc, units, choices, bounds, example.
//
//	var job struct {
//		Name    string
//		Length  quantity.Length
//		Tows    int
//	}
//	doc, err := document.Read("job.yaml", source, []document.Field{
//		document.Text("name", &job.Name, document.Required()),
//		document.Quantity("length", &job.Length, document.Required(), document.Positive()),
//		document.Integer("tows", &job.Tows, document.Between(1, 64)),
//	})
//
// Rules that tie fields together come after Read: they ask doc.Sound("length"), report
// with doc.FaultAt("length", problem, mend), and doc.Err returns all faults in order.
//
// Read is stricter than YAML where YAML surprises: a scalar arrives as it is written
// (010, yes, 1e3 and 09:00 are not reinterpreted), an unknown, missing or doubled key is
// a fault, and anchors, aliases, merges, tags, directives, null and further documents are
// refused.
package document
